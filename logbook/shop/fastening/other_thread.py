"""The screw of the other system that is nearest to one: #4-40 beside M3, M4 beside #8.

Inch diameters after ASME B1.1, 0.060 + 0.013 N inch; coarse threads only, which are the
ones that are commonly stocked (common practice, no source), as are the lengths.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from logbook.errors import BadInput
from logbook.shop.fastening.drills import Tapping, tapping
from logbook.shop.fastening.hole_widths import is_metric
from logbook.shop.fastening.screws import lengths
from logbook.shop.making.other_system import NEAR, in_inches
from logbook.shop.tables import table
from logbook.units import INCH_MM

LENGTHS_IN = tuple(
    Fraction(one)
    for one in (
        "1/4", "5/16", "3/8", "7/16", "1/2", "5/8", "3/4", "7/8", "1", "5/4", "3/2",
        "7/4", "2",
    )
)  # fmt: skip
_SERIES = "iso4762"
_ALIKE = 0.05
"""Lengths nearer than this, in mm, are the same."""


@dataclass(frozen=True, slots=True)
class OtherThread:
    """A screw of the other system: its thread, diameter and tapping drill; mm."""

    name: str
    tapping: Tapping

    @property
    def diameter(self) -> float:
        """Give its outside diameter."""
        return self.tapping.diameter


def other_thread(thread: str) -> OtherThread | None:
    """Give the nearest thread of the other system; None where none is near.

    `thread` is M3, M4x0.7, #4-40 or 1/4-20.
    """
    try:
        own = tapping(thread)
    except BadInput:
        return None
    others = _inch() if is_metric(thread) else _metric()
    near = min(others, key=lambda one: abs(one.diameter - own.diameter))
    away = abs(near.diameter - own.diameter)
    return near if away <= float(NEAR) * own.diameter else None


def _inch() -> list[OtherThread]:
    """Give the coarse inch threads: of each size the one with the fewest turns."""
    coarse: dict[str, tuple[int, str]] = {}
    for row in table("holes", "tap_inch").names():
        size, _, turns = row.rpartition("-")
        coarse[size] = min(coarse.get(size, (999, "")), (int(turns), row))
    return [OtherThread(name, tapping(name)) for _, name in coarse.values()]


def _metric() -> list[OtherThread]:
    names = table("holes", "tap_metric").names()
    return [OtherThread(name, tapping(name)) for name in names]


def lengths_beside(length_mm: float, other: OtherThread) -> tuple[str, ...]:
    """Give the stocked lengths of the other screw next below and above, in words.

    Only the one that is as long, where there is one.
    """
    if is_metric(other.name):
        sizes = [(one, f"{one:g} mm") for one in lengths(_SERIES)]
    else:
        sizes = [
            (mm, f"{in_inches(Fraction(one * INCH_MM))} in ({mm + 1e-9:.1f} mm)")
            for one, mm in ((one, float(one * INCH_MM)) for one in LENGTHS_IN)
        ]
    below = [one for one in sizes if one[0] <= length_mm + _ALIKE]
    above = [one for one in sizes if one[0] >= length_mm - _ALIKE]
    found = (*below[-1:], *above[:1])
    return tuple(dict.fromkeys(words for _, words in found))
