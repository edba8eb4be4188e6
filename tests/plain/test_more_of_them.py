"""More of a thing asked for is decided: how many of them, and which part it is."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT, of_parts


@pytest.mark.parametrize(
    ("says", "part", "quantity"),
    [
        ("turn 4 spare bushes while the stock is in the chuck", "bush", 4),
        ("sew 3 extra pouches", "pouch", 3),
        ("carve two more paddles from this blank", "paddle", 2),
        ("weld 6 spare hooks", "hook", 6),
        ("cast three more feet for the benches", "foot", 3),
        ("fold 2 extra brackets while the brake is set", "bracket", 2),
        ("cut 5 spare masks from the leftover card", "mask", 5),
        ("cut 2 more lids for the school", "lid", 2),
        ("print eight gates in one go", "gate", 8),
        ("bend 2 spare brackets while the folder is set up", "bracket", 2),
        ("we'll print 3 gates more than the list says", "gate", 3),
        ("make 12 more roof tiles", "roof tile", 12),
        ("two more lamps for the hall", "lamp", 2),
    ],
)
def test_more_of_a_thing_are_to_be_made(says: str, part: str, quantity: int) -> None:
    for words in (PROJECT, of_parts("lid", "bracket", "mask", "gate", "lamp")):
        line = understand(says, words)
        assert (line.kind, line.verdict) == (Kind.DECISION, Verdict.TAKEN)
        assert (line.facts.part, line.facts.quantity) == (part, quantity)
        assert not line.facts.disposition


@pytest.mark.parametrize(
    "says",
    [
        "cut 3 more crossbars, 40 min",
        "made 3 more collars while the bar was chucked",
        "printed 2 spare gates",
    ],
)
def test_what_is_told_as_done_is_done(says: str) -> None:
    assert understand(says, PROJECT).kind is Kind.STEP


@pytest.mark.parametrize(
    "says",
    [
        "3 more screws than the list says",
        "two more scratches on the lid",
        "two more rivets for the lid are on the shelf",
    ],
)
def test_more_of_what_is_only_there_is_not_to_be_made(says: str) -> None:
    line = understand(says, PROJECT)
    assert not (line.kind is Kind.DECISION and line.verdict is Verdict.TAKEN)


def test_holes_are_no_part_and_a_rib_is_asked_about() -> None:
    holes = understand("drill 4 more holes in the base", PROJECT)
    assert (holes.kind, holes.facts.part) == (Kind.DECISION, "base")
    rib = understand("rip 2 extra ribs while the saw is set", PROJECT)
    assert rib.question is not None
    assert rib.question.choices == ("rib", "no part")
