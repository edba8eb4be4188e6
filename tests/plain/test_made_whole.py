"""A part that was made is there: a piece of it is on record."""

from __future__ import annotations

import pytest

from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.workshop import Piece
from tests.plain.judge import PROJECT
from tests.plain.on_record import on_record


@pytest.mark.parametrize(
    "says", ["made the lid", "I made a lid, 40 min", "printed the lid in PETG"]
)
def test_a_part_that_was_made_is_a_piece_of_this_build(says: str) -> None:
    world = on_record(PROJECT, says)
    [piece], [done] = world.all(Piece), world.all(StepDone)
    assert piece.title == "lid-1"
    assert done.piece == piece.ref


def test_made_the_lid_twice_is_told_of_one_lid() -> None:
    assert len(on_record(PROJECT, "made the lid", "made the lid").all(Piece)) == 1


@pytest.mark.parametrize(
    "says", ["made the lid slots", "filed the lid", "made the holes in the lid"]
)
def test_what_is_done_to_a_part_makes_no_piece_of_it(says: str) -> None:
    assert not on_record(PROJECT, says).all(Piece)
