"""A line that says of a piece that it is still good, and of no other than it means."""

from __future__ import annotations

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.answers.held import held_to_records
from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Note, Status
from logbook.records.kinds.words import State
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.fresh import DEMO
from tests.plain.judge import NOW
from tests.plain.records_of import drafted, known, world


def _with_pieces(told: str = "", **counts: int) -> Snapshot:
    """Give the stand with so many pieces of each part, then what is told."""
    before = known(DEMO)
    draft = Draft(world(before), NOW)
    for name, count in counts.items():
        [part] = draft.snapshot.named(name, Part)
        for _ in range(count):
            draft.next_piece(part)
    records = (*before, *draft.records)
    said = drafted(understand(told, DEMO), world(records)) if told else ()
    return world((*records, *said))


def _held(says: str, snapshot: Snapshot) -> Understanding:
    return held_to_records(understand(says, DEMO), snapshot)


def _answer(line: Understanding, said: str, snapshot: Snapshot) -> Understanding:
    asked = line.question
    assert asked is not None
    told = answered(line, asked, said, DEMO)
    return held_to_records(told, snapshot, {asked.question})


def _said(line: Understanding, snapshot: Snapshot) -> list[tuple[str, State]]:
    """Give what the drafted records say became of which piece."""
    found = []
    for one in drafted(line, snapshot):
        if isinstance(one, Status):
            piece = snapshot.find(one.of, Piece)
            assert piece is not None
            found.append((piece.title, one.state))
    return found


GOOD = State.CONFIRMED


@pytest.mark.parametrize(
    "says",
    [
        "the diffuser held",
        "diffuser held up fine",
        "The diffuser is still good.",
        "diffuser-1 still good",
        "diffuser 1 still holds",
    ],
)
def test_a_piece_said_to_hold_is_still_good_and_shown_so_first(says: str) -> None:
    snapshot = _with_pieces(diffuser=1)
    line = _held(says, snapshot)
    assert (line.kind, line.verdict) == (Kind.NOTE, Verdict.TAKEN)
    assert "diffuser 1 still good" in in_one_line(line)
    assert _said(line, snapshot) == [("diffuser-1", GOOD)]
    notes = [one.title for one in drafted(line, snapshot) if isinstance(one, Note)]
    assert notes == [says]


def test_for_how_long_it_is_good_is_kept() -> None:
    snapshot = _with_pieces(gate=2)
    line = _held("gate 2 still good after 40 h", snapshot)
    assert "gate 2 still good after 40 h" in in_one_line(line)
    [status] = [one for one in drafted(line, snapshot) if isinstance(one, Status)]
    assert str(status.after) == "40 h"


def test_which_of_several_held_is_asked() -> None:
    snapshot = _with_pieces(gate=2)
    line = _held("the gate held", snapshot)
    assert line.question is not None
    assert line.question.choices == ("gate-2", "gate-1", "only a note")
    assert _said(_answer(line, "gate-1", snapshot), snapshot) == [("gate-1", GOOD)]
    assert _said(_answer(line, "only a note", snapshot), snapshot) == []


def test_which_part_it_is_that_held_is_asked() -> None:
    snapshot = _with_pieces("lid 1 kinked", lid=1)
    line = _held("it held", snapshot)
    assert line.question is not None
    assert "lid" in line.question.choices
    assert _said(_answer(line, "lid", snapshot), snapshot) == [("lid-1", GOOD)]
    assert _said(_answer(line, "no part", snapshot), snapshot) == []


def test_of_a_piece_that_is_not_on_record_nothing_is_said() -> None:
    snapshot = _with_pieces(lid=1)
    line = _held("lid-3 still good", snapshot)
    assert line.verdict is Verdict.KEPT
    assert "there is no lid-3 on record" in in_one_line(line)
    assert [type(one) for one in drafted(line, snapshot)] == [Note]


@pytest.mark.parametrize(
    "says",
    [
        "the base held the lamp",
        "I hope the base held",
        "the base held for a day",
        "not sure the base held",
        "the base held?",
        "pressure in the base held at 2 bar",
    ],
)
def test_what_held_something_or_in_hope_is_not_still_good(says: str) -> None:
    snapshot = _with_pieces(base=1)
    assert _said(_held(says, snapshot), snapshot) == []
