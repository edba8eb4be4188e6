"""What differs between two states of a record is told fact by fact, old → new."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

from hypothesis import given

from logbook.quantity import Absent, parse_quantity
from logbook.records.kinds.happenings import Cause, Deviation, Failure, Reading, Run
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.together.shown import what_changed
from tests.records.strategies import of_class

NOW = datetime(2026, 3, 14, 12, 0, tzinfo=UTC)
PART = Ref("base", "0p0p0p0p")
OFF = Deviation(
    id="0d0d0d0d", title="off", when=NOW, part=PART, found=parse_quantity("178.6 mm")
)
READ = tuple(
    Reading(
        id=f"0r0r0r0{n}", at=NOW, what=Ref("opening", "0c0c0c0c"),
        value=parse_quantity(f"178.6{n} mm"),
    )
    for n in (1, 2)
)  # fmt: skip
RUN = Run(id="0t0t0t0t", title="run", when=NOW, part=PART, readings=READ)
CRACKED = Failure(id="0f0f0f0f", title="cracked", when=NOW, cause=Cause(said="heat"))


def told(before: Record, after: Record) -> list[str]:
    return [one.words for one in what_changed(before, after)]


def test_a_fact_is_told_as_it_was_and_as_it_is() -> None:
    after = replace(OFF, found=parse_quantity("178.9 mm"), title="base opening 178.9")
    assert told(OFF, after) == ["found: 178.6 mm → 178.9 mm"]


def test_a_fact_that_came_or_went_says_so() -> None:
    bare = replace(OFF, found=None)
    assert told(bare, OFF) == ["found: not told → 178.6 mm"]
    assert told(OFF, bare) == ["found: 178.6 mm → taken away"]


def test_a_name_is_told_without_its_id() -> None:
    assert told(OFF, replace(OFF, part=Ref("lid", "01010101"))) == ["part: base → lid"]


def test_a_last_word_of_eight_letters_is_no_id() -> None:
    after = replace(CRACKED, cure="broke the chamfers", part=PART)
    assert told(replace(CRACKED, part=PART), after) == [
        "cure: not told → broke the chamfers"
    ]


def test_a_reading_is_told_by_its_row_and_what_of_it_changed() -> None:
    put_right = replace(READ[1], value=parse_quantity("178.7 mm"), place="left")
    after = replace(RUN, readings=(READ[0], put_right))
    assert told(RUN, after) == [
        "reading 2 value: 178.62 mm → 178.7 mm",
        "reading 2 place: not told → left",
    ]
    gone = replace(RUN, readings=(READ[1],))
    assert told(RUN, gone) == ["reading 1: opening 178.61 mm → taken away"]


def test_a_reading_that_only_came_is_no_change_of_what_stood() -> None:
    more = replace(READ[0], id="0r0r0r09", value=Absent.NOT_MEASURED)
    assert told(RUN, replace(RUN, readings=(*READ, more))) == []


def test_a_cause_is_told_by_its_words() -> None:
    after = replace(CRACKED, cause=Cause(said="wedged"))
    assert told(CRACKED, after) == ["cause said: heat → wedged"]


def test_a_title_is_told_where_nothing_else_changed_and_prose_only_that_it_did() -> (
    None
):
    assert told(OFF, replace(OFF, title="off again")) == ["title: off → off again"]
    assert told(OFF, replace(OFF, prose="more")) == ["prose: as it was → told anew"]


@given(of_class(Failure), of_class(Failure))
def test_only_what_is_equal_has_nothing_to_tell(one: Failure, other: Failure) -> None:
    assert told(one, one) == []
    for changed in what_changed(one, replace(other, id=one.id)):
        assert changed.words
