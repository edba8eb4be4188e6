"""A line that says how many were made puts each of them on record."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.plain.drafts.entries import draft_line
from logbook.plain.drafts.remarks import remarks
from logbook.plain.lines import understand
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from tests.plain.judge import NOW
from tests.plain.records_of import known, world

WORDS = Vocabulary(now=NOW, parts={"gate": (), "mask": (), "corner cleat": ()})


def made(says: str, before: int = 0) -> tuple[list[str], tuple[str, ...]]:
    """Give the pieces a line makes behind so many gates, and what is said of them."""
    first = Draft(world(known(WORDS)), NOW)
    for _ in range(before):
        first.next_piece(first.part("gate"))
    snapshot = world((*first.snapshot, *first.records))
    draft = Draft(snapshot, NOW + timedelta(minutes=1))
    draft_line(draft, understand(says, WORDS))
    return [piece.title for piece in draft.made(Piece)], remarks(draft)


@pytest.mark.parametrize(
    ("says", "part", "many"),
    [
        ("printed five corner cleats in PETG", "corner cleat", 5),
        ("made three gates", "gate", 3),
        ("made 4 masks today", "mask", 4),
        ("printed 6 gates, 40 min", "gate", 6),
        ("I printed two gates", "gate", 2),
        ("built 3 gates", "gate", 3),
    ],
)
def test_so_many_pieces_are_on_record(says: str, part: str, many: int) -> None:
    pieces, _ = made(says)
    assert pieces == [f"{part}-{n}" for n in range(1, many + 1)]


def test_those_made_before_stay_and_the_new_ones_are_told_as_a_row() -> None:
    pieces, told = made("printed four gates", before=2)
    assert pieces == ["gate-3", "gate-4", "gate-5", "gate-6"]
    assert "new: gate-3 to gate-6" in told


@pytest.mark.parametrize(
    "says",
    [
        "printed the gate with five walls",
        "drilled three holes in the gate",
        "cut 2 gates",
        "printed the gate in three hours",
        "glued two gates",
        "printed 5 spacers for the gate",
    ],
)
def test_a_count_of_something_else_makes_none(says: str) -> None:
    assert len(made(says)[0]) <= 1
