"""The round holes of a design file: how many, how wide, and how far apart.

Who holds the file asks which hole is for which screw; what is drawn answers first. A
circle as wide as the whole drawing is its outline and no hole.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from logbook.counting import so_many
from logbook.store.designs.overall import in_words, scale, width
from logbook.store.designs.shapes import Circle, Shape
from logbook.store.designs.unsaid_units import in_metres, in_own_units
from logbook.units import find_unit

_SAME = 1e-3
"""Widths that differ by less, as a share of them, are the same."""


def round_holes(shape: Shape) -> tuple[Circle, ...]:
    """Give the circles of a shape that are no outline of it."""
    least = min((side for side in (shape.size or ())[:2] if side), default=0.0)
    return tuple(
        one for one in shape.circles if not least or one.across < least * (1 - _SAME)
    )


def widths_mm(shape: Shape, meant: str) -> dict[float, int]:
    """Give how many round holes there are of each width in mm; none of unknown unit."""
    if in_metres(shape, meant) or in_own_units(shape):
        return {}
    times, unit = scale(shape, meant)
    times *= float(find_unit(unit).factor)
    return Counter(round(one.across * times, 2) for one in round_holes(shape))


def holes_words(shape: Shape, meant: str) -> str:
    """Say how many round holes there are, how wide, and how far their centres reach.

    `meant` is the unit of the project; of a file in an unknown one only their number
    is told. Empty without any.
    """
    holes = round_holes(shape)
    if not holes:
        return ""
    if in_metres(shape, meant) or in_own_units(shape):
        return so_many(holes, "round hole")
    times, unit = scale(shape, meant)
    alike: dict[str, list[Circle]] = {}
    for one in sorted(holes, key=lambda one: one.across):
        alike.setdefault(width(one.across * times, unit), []).append(one)
    if len(alike) == 1:
        wide = next(iter(alike))
        return f"{so_many(holes, 'round hole')} of {wide}{_apart(holes, times, unit)}"
    each = "; ".join(
        f"{len(some)} of {wide}{_apart(some, times, unit)}"
        for wide, some in alike.items()
    )
    return f"{so_many(holes, 'round hole')}: {each}"


def _apart(holes: Sequence[Circle], times: float, unit: str) -> str:
    """Say how far the outermost centres of holes of one width are apart."""
    reach = [
        (max(along) - min(along)) * times
        for along in ([one.x for one in holes], [one.y for one in holes])
    ]
    sides = [side for side in reach if side > _SAME]
    which = "outermost centres" if len(holes) > 2 else "centres"
    return f", {which} {in_words(sides, unit)} apart" if sides else ""
