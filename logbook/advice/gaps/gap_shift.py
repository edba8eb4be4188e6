"""How far heat and moist air move a gap, by the rooms the thing will stand in.

Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from logbook.advice.gaps.contributor import Known
from logbook.advice.ground.material import material_of
from logbook.advice.ground.register import View
from logbook.advice.rooms.climate import (
    ROOM,
    Rooms,
    board_moves,
    heat_moves,
    is_across,
    rooms,
    species_near,
    species_row,
)


def shift_of(
    view: View, ones: Sequence[Known], slopes: Mapping[str, float]
) -> tuple[tuple[float, float], tuple[str, ...]]:
    """Give how far the project's rooms move the gap, down and up."""
    found = rooms(view.project)
    materials = [material_of(view, one.part, one.piece) for one in ones]
    moves: list[float] = [0.0]
    said: list[str] = []
    for room in (found.coldest, found.hottest):
        if room is None:
            continue
        each = [
            _heat(one, material, slopes[one.name], room)
            for one, material in zip(ones, materials, strict=True)
        ]
        if None in each:
            unknown = [
                _unknown(one, material)
                for one, material, moved in zip(ones, materials, each, strict=True)
                if moved is None
            ]
            said.append(f"heat left out: {', '.join(dict.fromkeys(unknown))}")
        else:
            moves.append(math.fsum(one for one in each if one is not None))
    boards = [
        _board(one, material, slopes[one.name], found)
        for one, material in zip(ones, materials, strict=True)
    ]
    said += [
        f"moist air left out: no figures of “{material}” alone ({one.part.title})"
        for one, material in zip(ones, materials, strict=True)
        if _is_wood_without_figures(one, material, found)
    ]
    damp = math.fsum(boards)
    low, high = min(moves), max(moves)
    return (low - abs(damp) / 2, high + abs(damp) / 2), tuple(dict.fromkeys(said))


def _unknown(one: Known, material: str) -> str:
    """Say why it is not known how a part grows with heat."""
    if not material:
        return f"no material on record of {one.part.title}"
    return f"no figure here of how {material} grows with heat ({one.part.title})"


def _heat(one: Known, material: str, slope: float, room: float) -> float | None:
    length = (one.low + one.high) / 2
    then = one.read.room if one.read and one.read.room is not None else ROOM
    moved = heat_moves(material, length, room - then)
    return None if moved is None else slope * moved


def _board(one: Known, material: str, slope: float, found: Rooms) -> float:
    if not is_across(one.what.title):
        return 0.0
    moved = board_moves(material, (one.low + one.high) / 2, found)
    return slope * moved.change if moved else 0.0


def _is_wood_without_figures(one: Known, material: str, found: Rooms) -> bool:
    """Tell whether air moves a size, of a wood that is not named near enough."""
    if not is_across(one.what.title) or found.driest is None or found.dampest is None:
        return False
    known = any(species_row(name, material) for name in ("coefficients", "shrinkage"))
    return not known and bool(species_near(material))
