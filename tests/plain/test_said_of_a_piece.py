"""A line that says of a piece that it is still good, or lost, and of no other."""

from __future__ import annotations

import pytest

from logbook.advice.pieces.counts import tally
from logbook.plain.answers.answering import answered
from logbook.plain.answers.held import held_to_records
from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Note, Status
from logbook.records.kinds.words import State
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.making.drafts import Draft
from logbook.records.states.pieces import is_gone, piece_state
from logbook.records.together.snapshot import Snapshot
from tests.plain.fresh import DEMO
from tests.plain.judge import NOW
from tests.plain.records_of import drafted, known, world


def _with_pieces(told: str = "", **counts: int) -> Snapshot:
    """Give the stand with so many pieces of each part, then what is told."""
    names = known(DEMO)
    draft = Draft(world(names), NOW)
    for name, count in counts.items():
        [part] = draft.snapshot.named(name, Part)
        for _ in range(count):
            draft.next_piece(part)
    records = (*names, *draft.records)
    before = world(records)
    said = drafted(_held(told, before), before) if told else ()
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


GOOD, LOST = State.CONFIRMED, State.LOST


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


@pytest.mark.parametrize(
    "says",
    [
        "lost lid-2",
        "we lost lid 2",
        "lid-2 got lost",
        "lid-2 is lost",
        "lid-2 lost",
        "lid 2 went missing.",
        "lid-2 has gone missing somewhere in the shed",
    ],
)
def test_a_piece_that_got_lost_is_gone_and_shown_so_first(says: str) -> None:
    snapshot = _with_pieces(lid=2)
    line = _held(says, snapshot)
    assert (line.kind, line.verdict) == (Kind.NOTE, Verdict.TAKEN)
    assert "lid 2 lost" in in_one_line(line)
    assert _said(line, snapshot) == [("lid-2", LOST)]


def test_a_lost_piece_is_neither_there_nor_spoiled_nor_left_over() -> None:
    snapshot = _with_pieces("lost lid-2", lid=2)
    [lid], [build] = snapshot.named("lid", Part), snapshot.all(Build)
    [piece] = snapshot.named("lid-2", Piece)
    assert piece_state(snapshot, piece) is LOST
    assert is_gone(snapshot, piece)
    took = tally(snapshot, lid, build)
    assert took is not None
    assert (took.used, took.scrapped, took.spare, took.lost) == (1, 0, 0, 1)
    assert took.words == "2 made, of these 1 lost"
    assert _held("lid-2 still good", snapshot).remark == "lid-2 is lost"


def test_which_one_got_lost_is_asked() -> None:
    snapshot = _with_pieces(gate=2)
    line = _held("the gate went missing", snapshot)
    assert _said(_answer(line, "gate-2", snapshot), snapshot) == [("gate-2", LOST)]


def test_a_lost_piece_that_nobody_made_is_no_size() -> None:
    snapshot = _with_pieces(lid=1)
    line = _held("lost lid-2", snapshot)
    assert (line.verdict, line.facts.readings) == (Verdict.KEPT, ())


@pytest.mark.parametrize(
    "says",
    [
        "lost 0.2 in the grinding",
        "lid lost its paint",
        "lost an hour",
        "the lid lost 0.2 mm",
        "lost the lid of the glue",
        "did we lose the lid?",
    ],
)
def test_what_lost_something_or_was_no_piece_is_not_lost(says: str) -> None:
    snapshot = _with_pieces(lid=1)
    assert _said(_held(says, snapshot), snapshot) == []
