"""A line that says only “it” is asked of which part, the last one told of offered."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.advice.faults.helped import NOT_TRIED, helped
from logbook.plain.answers.answering import answered
from logbook.plain.answers.held import held_to_records
from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.understanding import NO_PART, Kind, Understanding, Verdict
from logbook.records.kinds.happenings import Disposal, Failure
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.judge import NOW, of_parts
from tests.plain.records_of import known, world

WORDS = of_parts("diffuser", "base")
CRACKED = "diffuser cracked at the corner screw, hole too tight, cure: rubber pads"


def after(*says: str) -> tuple[Record, ...]:
    records = known(WORDS)
    for minute, one in enumerate(says):
        draft = Draft(world(records), NOW + timedelta(minutes=minute))
        made = draft_line(draft, understand(one, WORDS)).records
        records = (*records, *made)
    return records


def held(says: str, snapshot: Snapshot) -> Understanding:
    return held_to_records(understand(says, WORDS), snapshot)


def said_of(says: str, part: str, snapshot: Snapshot) -> Understanding:
    line = held(says, snapshot)
    assert line.question is not None
    assert line.question.about == "it"
    told = answered(line, line.question, part, WORDS)
    return held_to_records(told, snapshot, {line.question.question})


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("reworked it with rubber pads, cracked again", Kind.FAILURE),
        ("sanded it, cracked again", Kind.FAILURE),
        ("cracked again", Kind.FAILURE),
        ("it does not fit", Kind.FAILURE),
        ("scrapped it", Kind.DISPOSITION),
        ("scrap", Kind.DISPOSITION),
        ("filed it to 178.3", Kind.STEP),
        ("it is 178.3 long", Kind.READING),
    ],
)
def test_which_part_it_is_is_asked_and_read_with_the_line(
    says: str, kind: Kind
) -> None:
    snapshot = world(after("base opening 178.6", CRACKED))
    line = held(says, snapshot)
    assert line.question is not None
    assert line.question.choices == ("diffuser", "base", NO_PART)
    told = said_of(says, "diffuser", snapshot)
    assert (told.verdict, told.kind, told.facts.part) == (
        Verdict.TAKEN,
        kind,
        "diffuser",
    )
    assert told.line == says


def test_of_no_part_it_stays_what_it_was() -> None:
    snapshot = world(after(CRACKED))
    for said in ("", NO_PART):
        told = said_of("it cracked again", said, snapshot)
        assert (told.verdict, told.kind) == (Verdict.TAKEN, Kind.FAILURE)
        assert told.facts.part == ""


@pytest.mark.parametrize("says", ["scrap", "scrap it"])
def test_what_is_done_with_nothing_is_only_a_note(says: str) -> None:
    snapshot = world(after(CRACKED))
    for said in ("", NO_PART):
        assert said_of(says, said, snapshot).kind is Kind.NOTE


def test_a_cure_tried_on_it_that_failed_again_was_tried() -> None:
    records = after(CRACKED)
    told = said_of("reworked it with pads, cracked again", "diffuser", world(records))
    draft = draft_line(Draft(world(records), NOW + timedelta(hours=1)), told)
    kinds = [type(one) for one in draft.new if isinstance(one, Disposal | Failure)]
    assert kinds == [Disposal, Failure]
    snapshot = world((*records, *draft.records))
    first = snapshot.all(Failure)[0]
    assert helped(snapshot, first) != NOT_TRIED
    assert helped(snapshot, first).startswith("tried, and it came back")


@pytest.mark.parametrize(
    "says", ["lid cracked", "base cracked, glued it", "it rains", "the print shifted"]
)
def test_what_names_its_part_or_says_no_it_is_not_asked(says: str) -> None:
    line = held(says, world(after(CRACKED)))
    assert not [one for one in line.doubts if one.about == "it"]


def test_nothing_told_of_before_leaves_nothing_to_ask() -> None:
    line = held("it cracked again", world(known(WORDS)))
    assert line.verdict is Verdict.TAKEN
