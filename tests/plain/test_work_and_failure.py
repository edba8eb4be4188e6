"""Work on a piece and a failure of it told in one line are two facts, both kept."""

from __future__ import annotations

import pytest

from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.plain.understanding import Kind, Verdict
from logbook.records.kinds.happenings import Disposal, Failure, StepDone
from logbook.records.kinds.words import Disposition
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.states.dispositions import undisposed
from logbook.records.together.snapshot import Snapshot
from tests.plain.judge import NOW, of_parts
from tests.plain.records_of import drafted, known, world

WORDS = of_parts("gate", "lamp", "lid", "diffuser", "bed")


def after(*lines: str) -> Snapshot:
    """Give what is on record after these lines."""
    records = known(WORDS)
    for line in lines:
        records = (*records, *drafted(understand(line, WORDS), world(records)))
    return world(records)


@pytest.mark.parametrize(
    ("says", "did"),
    [
        ("reworked the diffuser with a wooden pad, chipped again", "rework"),
        ("sanded the diffuser flush but it chipped again at the corner", "rework"),
        ("repaired the diffuser and it chipped again", "repair"),
        ("diffuser reworked with a wooden pad, chipped again", "rework"),
        ("sanded the diffuser, chips again", "rework"),
    ],
)
def test_what_was_reworked_and_failed_again_is_both(says: str, did: str) -> None:
    snapshot = after("diffuser chipped at the corner")
    line = understand(says, WORDS)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.FAILURE)
    assert f"before it {did}" in in_one_line(line)
    draft = draft_line(Draft(snapshot, NOW), line)
    [before] = [one for one in draft.records if isinstance(one, Disposal)]
    [again] = [one for one in draft.records if isinstance(one, Failure)]
    first = undisposed(snapshot)[0]
    assert before.disposition is Disposition(did)
    assert before.answers is not None
    assert before.answers.id == first.id
    assert (again.piece, again.disposition) == (before.piece, None)
    assert before.when < again.when
    assert again.title == says
    assert not [one for one in draft.records if isinstance(one, Piece)]


def test_what_is_worked_on_for_something_else_answers_only_what_came_again() -> None:
    snapshot = after("diffuser chipped at the corner", "diffuser scratched my film")
    line = understand("reworked the diffuser, it chipped again", WORDS)
    draft = draft_line(Draft(snapshot, NOW), line)
    [before] = [one for one in draft.records if isinstance(one, Disposal)]
    assert before.answers is not None
    assert "chipped" in before.answers.name


@pytest.mark.parametrize(
    "says",
    [
        "chipped again after the rework",
        "the diffuser chipped again after the rework",
        "diffuser cracked again at the repair",
    ],
)
def test_the_earlier_rework_is_no_disposition_of_the_failure(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.facts.disposition) == (Kind.FAILURE, "")


@pytest.mark.parametrize(
    "says",
    [
        "reprinted the gate because it warped",
        "remade the gate because it sagged",
        "reprinted the gate at 15 degrees because it warped at the corner",
        "reprinted the gate in PETG because the PLA sagged",
        "had to reprint the gate because it warped",
        "reprinted the gate, the last one warped",
        "remade the gate, the first one was too short",
    ],
)
def test_what_was_made_anew_because_it_failed_is_both(says: str) -> None:
    snapshot = after("printed the gate, 20.1 wide")
    line = understand(says, WORDS)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.FAILURE)
    assert "made anew" in in_one_line(line)
    draft = draft_line(Draft(snapshot, NOW), line)
    [failure] = [one for one in draft.records if isinstance(one, Failure)]
    [made] = [one for one in draft.records if isinstance(one, StepDone)]
    assert failure.piece is not None
    assert made.piece is not None
    assert (failure.piece.name, made.piece.name) == ("gate-1", "gate-2")
    assert failure.when < made.when


def test_which_one_failed_is_asked_where_that_is_not_said() -> None:
    line = understand("reprinted the gate, it warped", WORDS)
    assert line.verdict is Verdict.ASKED


def test_its_cause_is_told_behind_it() -> None:
    line = understand("reprinted the gate because it warped, too cold a plate", WORDS)
    assert line.facts.cause is not None
    assert line.facts.cause.said == "too cold a plate"


@pytest.mark.parametrize(
    "says",
    [
        "reprint the gate because it warped",
        "need to reprint the gate because it warped",
        "should remake the lid because it cracked",
    ],
)
def test_what_is_still_to_be_made_anew_is_not_made(says: str) -> None:
    line = understand(says, WORDS)
    assert line.facts.beside is None
    made = drafted(line, world(known(WORDS)))
    assert not any(isinstance(one, StepDone) for one in made)


def test_another_part_that_failed_is_no_failure_of_what_was_made_anew() -> None:
    line = understand("reprinted the gate because the lid cracked", WORDS)
    assert line.facts.beside is None


@pytest.mark.parametrize(
    "says",
    [
        "reworked the diffuser with a wooden pad",
        "reworked the diffuser because it chipped again",
        "reworked the diffuser, no chips this time",
        "reworked the diffuser so it does not chip again",
        "sanded the diffuser again",
    ],
)
def test_what_did_not_fail_after_it_is_only_reworked(says: str) -> None:
    assert understand(says, WORDS).facts.beside is None
