"""The limits of what is made to suit: its gap gives them, whatever was drawn."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from logbook.advice.ground.advice import Advice
from logbook.quantity import parse_quantity
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.sizes.definition import NO_LIMITS, OFF_DRAWING, Dimension
from logbook.records.states.pieces import current_build
from logbook.records.together.snapshot import Snapshot

_SIZES = (
    ("finish", "accept_low", "accept_high"),
    ("right", "right_low", "right_high"),
)
"""Names of the figures of a gap: while its last piece is to be made, and afterwards."""

_UNSUITED = "does not suit"
FAULTS = {OFF_DRAWING: f"is {OFF_DRAWING}", _UNSUITED: _UNSUITED}
"""What leads to a deviation, as a verdict and as a sentence has it."""

_SUITED = {OFF_DRAWING: _UNSUITED, NO_LIMITS: "no limits yet"}


def held_to_gap(
    snapshot: Snapshot,
    advice: Iterable[Advice],
    drawn: Dimension,
    piece: Piece | None = None,
    build: Build | None = None,
) -> Dimension:
    """Give a size made last the limits its gap accepts, and the size to finish it to.

    It is held to the gap of the build of its piece; without one to that of `build`,
    the one in hand; limits drawn of it are of a gap as drawn, and do not hold. As it
    was where no gap is made to fit by it, or none can say yet.
    """
    numbers = _numbers(snapshot, advice, drawn, piece, build)
    for finish, low, high in _SIZES:
        if {finish, low, high} <= set(numbers):
            return replace(
                drawn,
                nominal=parse_quantity(numbers[finish]),
                lower=parse_quantity(numbers[low]),
                upper=parse_quantity(numbers[high]),
                to_suit=True,
            )
    return drawn


def rough_size(
    snapshot: Snapshot,
    advice: Iterable[Advice],
    drawn: Dimension,
    piece: Piece | None = None,
    build: Build | None = None,
) -> str:
    """Give the size to saw or cut a size made to suit to first, where one is known."""
    return _numbers(snapshot, advice, drawn, piece, build).get("rough", "")


def _numbers(
    snapshot: Snapshot,
    advice: Iterable[Advice],
    drawn: Dimension,
    piece: Piece | None,
    build: Build | None,
) -> dict[str, str]:
    """Give the figures of the gap a size is made to fit, that has any, as shown."""
    item = drawn.characteristic
    keys = {
        _key(snapshot, fit, piece, build or current_build(snapshot))
        for fit in snapshot.mentions(item, Fit)
        if snapshot.find(fit.made_last) is item
    }
    for one in advice if keys else ():
        names = {number.name for number in one.numbers}
        if one.key in keys and any({*sizes} <= names for sizes in _SIZES):
            return {number.name: number.shown for number in one.numbers}
    return {}


def _key(snapshot: Snapshot, fit: Fit, piece: Piece | None, build: Build | None) -> str:
    """Give the key of the advice on a gap in the build of a piece."""
    own = snapshot.find(piece.build, Build) if piece and piece.build else None
    elsewhere = own is not None and build is not None and own.id != build.id
    return f"gap {fit.id} {own.id}" if own and elsewhere else f"gap {fit.id}"


def suited_word(drawn: Dimension | None, said: str) -> str:
    """Say of what is made to suit how it stands to its gap, not to a drawing."""
    suits = drawn is not None and drawn.to_suit
    return _SUITED.get(said, said) if suits else said
