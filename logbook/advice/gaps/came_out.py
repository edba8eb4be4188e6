"""How gaps came out whose pieces were all read: that is known, not reckoned."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.gaps.gap import limits_of
from logbook.advice.gaps.gaps import gap_advice
from logbook.advice.ground.advice import Advice
from logbook.advice.ground.register import Register, View
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.workshop import Piece
from logbook.records.states.pieces import readings_of
from logbook.records.together.snapshot import Snapshot


def came_out(snapshot: Snapshot, *fits: Fit) -> Iterator[Advice]:
    """Say how each gap came out for the pieces it was read on, newest build first.

    What is still to be made, or is reckoned from what was not read, is left out.
    """
    register = Register()
    register.update(snapshot)
    view = View(register)
    for fit in fits:
        for found in gap_advice(view, fit):
            if isinstance(found, Advice) and found.read:
                yield found


def suits(snapshot: Snapshot, piece: Piece, item: Characteristic) -> str | None:
    """Say why a piece made to suit does not: its gap, and how that came out.

    Empty where it does; None where that is not known, or nothing is made to suit.
    """
    fits = [
        fit
        for fit in snapshot.mentions(item, Fit)
        if snapshot.find(fit.made_last) is item
    ]
    if not fits or not readings_of(snapshot, piece, item):
        return None
    own = [
        (fit, found)
        for fit in fits
        for found in came_out(snapshot, fit)
        if any(snapshot.find(ref) is piece for ref in found.inputs)
    ]
    if not own:
        return None
    return "; ".join(_short(found) for fit, found in own if _misses(fit, found))


def _misses(fit: Fit, found: Advice) -> bool:
    """Tell whether a gap is outside of what is wanted, by its readings as they are."""
    wanted = limits_of(fit)
    tight, loose = (
        float(str(found.number(name).value)) for name in ("gap_tight", "gap_loose")
    )
    under = wanted.low is not None and tight < wanted.low - _NOTHING
    return under or (wanted.high is not None and loose > wanted.high + _NOTHING)


_NOTHING = 1e-9
"""Less than this (mm) is what floats lose, and no length."""


def _short(found: Advice) -> str:
    """Give which gap it is, and how it stands to what is wanted."""
    head, _, said = found.statement.partition(": ")
    return f"{head}: {said.rpartition(': ')[2]}"
