"""Where a number belongs that is typed over the question of a doubted one.

It was read again there, or it is of the next place. No pace tells: a caliper, a paste
and a hand that copies from paper type on without reading, and each may have measured
the same place again or gone on to the next one.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, TypeVar

from logbook.errors import BadInput
from logbook.quantity import Absent, Quantity
from logbook.records.sizes.definition import Dimension
from logbook.records.sizes.expected import expected_of, must_suit
from logbook.records.sizes.slips import doubt_of
from logbook.records.together.snapshot import Snapshot
from logbook.screens.ruled.asking import Question

AGAIN, NEXT = "again", "next"
Where = TypeVar("Where")


@dataclass(frozen=True, slots=True)
class TypedOver(Generic[Where]):
    """A place whose doubted number was typed over, and what that may have meant."""

    where: Where
    meant: Quantity | None = None

    def is_open(self, where: Where, value: Quantity | Absent | None) -> bool:
        """Tell whether a value typed here may be of the next place as well."""
        return where == self.where and value != self.meant


def also_not_taken(before: str, text: str) -> str:
    """Give what was typed at a place and not taken, with what was not before it."""
    known = before.split(", ") if before else []
    return ", ".join(dict.fromkeys((*known, text)))


def can_be_of(
    snapshot: Snapshot, drawn: Dimension | None, value: Quantity | Absent
) -> bool:
    """Tell whether a value can be of this size, and looks like no slip there."""
    if drawn is None:
        return True
    try:
        must_suit(value, expected_of(snapshot, drawn))
    except BadInput:
        return False
    return doubt_of(snapshot, drawn, value) is None


def of_which(value: Quantity | Absent, here: str, there: str) -> Question:
    """Ask which of two places a number was read at; more numbers wait meanwhile."""
    words = f"{value}: read again at {here}, or is it of {there}?"
    keys = {
        "a": (f"again at {here}", AGAIN),
        "n": (f"of {there}; {here} stays open", NEXT),
    }
    return Question(words, keys, "it stays on the line")
