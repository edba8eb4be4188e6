"""What may be typed for a fact of a record: what cannot be is refused in a sentence."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from logbook.quantity import Absent, parse_quantity
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import (
    Cause,
    Deviation,
    Failure,
    Reading,
    Run,
    StepDone,
)
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Instrument
from logbook.screens.record.amending import amended, can_amend, typed_fact

NOW = datetime(2026, 3, 14, 12, 0, tzinfo=UTC)
PART = Ref("base", "0p0p0p0p")
SIZE = Characteristic(
    id="0c0c0c0c", title="opening", when=NOW, part=PART, critical=True,
    nominal=parse_quantity("180.0 mm"), lower_limit=parse_quantity("178.8 mm"),
    upper_limit=parse_quantity("181.2 mm"),
)  # fmt: skip
OFF = Deviation(
    id="0d0d0d0d", title="off", when=NOW, part=PART,
    found=parse_quantity("178.6 mm"), off=parse_quantity("-1.4 mm"),
)  # fmt: skip
CALIPER = Instrument(id="0n0n0n0n", title="caliper", when=NOW, checked=date(2026, 3, 1))
LINE = Line(id="0k0k0k0k", title="screw", when=NOW, part=PART, quantity=4)

DONE = StepDone(
    id="0s0s0s0s", title="drilled", when=NOW,
    set_to=(parse_quantity("3.2 mm"), parse_quantity("2 N·m")),
)  # fmt: skip


@pytest.mark.parametrize(
    ("record", "key", "typed", "says"),
    [
        (SIZE, "nominal", "180 kg", "is a mass, but this is a length"),
        (SIZE, "nominal", "12,5,5", "two decimal marks"),
        (SIZE, "nominal", "1/0 in", "divides by zero"),
        (SIZE, "nominal", "-3", "is negative"),
        (SIZE, "nominal", "18o", "not a unit known here"),
        (SIZE, "nominal", "1,234", "can be 1.234 or 1234"),
        (SIZE, "nominal", "7" * 2000, "2000 characters are no quantity"),
        (SIZE, "nominal", "180\x1b[31m", "not a unit known here"),
        (SIZE, "lower_limit", "200", "above the upper, 181.2 mm"),
        (SIZE, "critical", "maybe", "accepted: yes or no"),
        (SIZE, "title", "  ", "accepted: a line of words"),
        (OFF, "when", "2030-01-01T10:00", "lies in the future"),
        (OFF, "when", "some day", "no date and time"),
        (DONE, "set_to", "3.3 mm, two", "not begin with a number"),
        (OFF, "met_by_others", "him", "accepted: the drawing, this piece"),
        (CALIPER, "checked", "2026-13-01", "is no date"),
        (CALIPER, "checked", "2026-03-15", "lies in the future"),
        (LINE, "quantity", "-4", "a whole number from 0 up"),
        (LINE, "quantity", "four", "a whole number from 0 up"),
        (LINE, "part", "", "accepted"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(
    record: Record, key: str, typed: str, says: str
) -> None:
    said = amended(record, key, typed, NOW)
    assert isinstance(said, str)
    assert says in said
    assert "accepted: " in said
    assert "found: found" not in said
    assert "\n" not in said


@pytest.mark.parametrize(
    ("record", "key", "typed", "is_now"),
    [
        (SIZE, "nominal", "179", "179 mm"),
        (SIZE, "nominal", "7 in", "7 in"),
        (SIZE, "nominal", "18 ga steel", "18 ga steel"),
        (SIZE, "lower_limit", "178.8", "178.8 mm"),
        (SIZE, "critical", "no", "False"),
        (OFF, "off", "-0.2", "-0.2 mm"),
        (OFF, "found", "", "None"),
        (CALIPER, "checked", "2026-03-14", "2026-03-14"),
        (OFF, "when", "2026-03-13 10:00+00:00", "2026-03-13 10:00:00+00:00"),
        (OFF, "when", "2 h ago", "2026-03-14 10:00:00+00:00"),
        (LINE, "quantity", "0", "0"),
    ],
)
def test_what_can_be_is_taken_in_the_unit_it_had(
    record: Record, key: str, typed: str, is_now: str
) -> None:
    fresh = amended(record, key, typed, NOW)
    assert not isinstance(fresh, str), fresh
    assert str(getattr(fresh, key)) == is_now


def test_an_instant_without_an_offset_is_one_of_this_place() -> None:
    fresh = amended(OFF, "when", "2026-03-13T10:00", NOW)
    assert not isinstance(fresh, str)
    assert fresh.when == datetime.fromisoformat("2026-03-13T10:00").astimezone()


def test_a_list_is_amended_as_values_between_commas() -> None:
    assert typed_fact(["3.2 mm", "2 N·m"]) == "3.2 mm, 2 N·m"
    fresh = amended(DONE, "set_to", "3,3, 2.5 N·m; 40 mm", NOW)
    assert isinstance(fresh, StepDone)
    assert [str(one) for one in fresh.set_to] == ["3,3 mm", "2.5 N·m", "40 mm"]


def test_an_instant_shown_is_the_same_when_typed_back() -> None:
    shown = typed_fact(NOW)
    assert amended(OFF, "when", shown, NOW) == OFF


def test_a_reading_is_amended_by_its_row_and_a_cause_by_its_words() -> None:
    what = Ref("opening", "0c0c0c0c")
    first, second = (
        Reading(id=f"0r0r0r0{n}", at=NOW, what=what, value=parse_quantity("178.6 mm"))
        for n in (1, 2)
    )
    run = Run(id="0t0t0t0t", title="run", when=NOW, part=PART, readings=(first, second))
    fresh = amended(run, "reading 1", "178,65 back left", NOW)
    assert isinstance(fresh, Run)
    assert fresh.readings[0] == first
    assert str(fresh.readings[1].value) == "178,65 mm"
    assert fresh.readings[1].place == "back left"
    fresh = amended(run, "reading 0", "not measured", NOW)
    assert isinstance(fresh, Run)
    assert fresh.readings[0].value is Absent.NOT_MEASURED
    cracked = Failure(
        id="0f0f0f0f", title="cracked", when=NOW, cause=Cause(said="heat")
    )
    fresh = amended(cracked, "cause", "wedged", NOW)
    assert isinstance(fresh, Failure)
    assert fresh.cause == Cause(said="wedged")
    assert not can_amend({"path": "drawings/lid.dxf", "sha256": "00"})
