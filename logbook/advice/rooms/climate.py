"""How sizes move over the rooms the thing will stand in: heat, and wood with the air.

Wood comes to the moisture of steady air here, which is an upper bound: a finished
board follows late and less. Lengths in mm, temperatures in °C.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from logbook.advice.ground.material import row_for
from logbook.errors import BadInput
from logbook.quantity import Quantity
from logbook.records.kinds.design import Climate, Project
from logbook.shop.materials.growth import growth
from logbook.shop.materials.wood import (
    COEFFICIENT_RANGE,
    change_by_coefficient,
    change_by_shrinkage,
    equilibrium_moisture,
)
from logbook.shop.tables import Row, table

ROOM = 20.0
"""Room in which a reading without one is taken to be made (ISO 1)."""
_ACROSS = re.compile(r"\b(across|width|wide)\b")


@dataclass(frozen=True, slots=True)
class Rooms:
    """The range of rooms; None where the project does not say."""

    coldest: float | None
    hottest: float | None
    driest: float | None
    dampest: float | None


def rooms(project: Project) -> Rooms:
    """Give the project's rooms, in °C and percent.

    Raises:
        BadInput: a figure of another kind, or the ends the wrong way round.
    """
    told = project.climate or Climate()
    found = Rooms(
        _in(told.coldest, "°C"), _in(told.hottest, "°C"),
        _in(told.driest, "%"), _in(told.dampest, "%"),
    )  # fmt: skip
    for low, high in ((found.coldest, found.hottest), (found.driest, found.dampest)):
        if low is not None and high is not None and low > high:
            raise BadInput(
                f"the rooms run from {low:g} to {high:g}; accepted: the smaller first"
            )
    return found


def _in(value: Quantity | None, unit: str) -> float | None:
    return None if value is None else float(value.to(unit))


def heat_moves(material: str, length: float, rise: float) -> float | None:
    """Give what a length gains by a rise, None where the material has no figure."""
    row = row_for(table("heat", "expansion"), material) if material else None
    return growth(row.number("typical"), length, rise) if row else None


@dataclass(frozen=True, slots=True)
class Board:
    """How far a board moves across the grain between the driest and dampest air."""

    species: str
    width: float
    change: float
    dry: float
    damp: float
    source: str


def board_moves(material: str, width: float, found: Rooms) -> Board | None:
    """Give the steady-state movement of a board, None where it cannot be told.

    Flat-sawn (tangential), the more cautious way, unless the material says radial
    or quarter-sawn.
    """
    if found.driest is None or found.dampest is None:
        return None
    way = "radial" if re.search(r"quarter|radial", material.lower()) else "tangential"
    warm = [t for t in (found.coldest, found.hottest) if t is not None]
    middle = sum(warm) / len(warm) if warm else ROOM
    dry = equilibrium_moisture(middle, found.driest)
    damp = equilibrium_moisture(middle, found.dampest)
    low, high = COEFFICIENT_RANGE
    coefficient = species_row("coefficients", material)
    if coefficient is not None and low <= dry and damp <= high:
        moved = change_by_coefficient(width, coefficient.number(way), dry, damp)
        return Board(coefficient.label, width, moved, dry, damp, coefficient.source)
    shrinkage = species_row("shrinkage", material)
    if shrinkage is None:
        return None
    moved = change_by_shrinkage(width, shrinkage.number(way), dry, damp)
    return Board(shrinkage.label, width, moved, dry, damp, shrinkage.source)


def species_row(name: str, material: str) -> Row | None:
    """Give the row of a species in a table of wood, None where none is named."""
    return row_for(table("wood", name), material)


def species_near(material: str) -> tuple[str, ...]:
    """Give the kinds of wood, as the tables call them, that a bare name may mean.

    “pine” alone has no figures, three pines have; empty where no wood is named.
    """
    words = set(re.findall(r"[a-z]+(?:-[a-z]+)*", material.lower()))
    rows = (
        row
        for name in ("coefficients", "shrinkage")
        for row in table("wood", name).rows
    )
    near = (row.label for row in rows if row.label.lower().partition(",")[0] in words)
    return tuple(dict.fromkeys(near))


def is_across(name: str) -> bool:
    """Tell whether a dimension is named as one across the grain."""
    return bool(_ACROSS.search(name.lower().replace("_", " ")))
