"""Which holes a screw asks for, by the tables, and what a hole of some width is for.

Metric after ISO 273 (fine, medium, coarse) and ISO 2306, inch after ASME B18.2.8
(close, normal, loose) and the tap drill tables. Widths in mm.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from logbook.errors import BadInput
from logbook.shop.fastening.drills import (
    Tapping,
    clearance,
    clearance_inch,
    drill,
    inch_size,
    tapping,
)
from logbook.shop.tables import table
from logbook.units import INCH_MM

WORDS = ("close", "usual", "wide")
TAPPING = "tapping drill"
_NEAR_MM = 0.05
"""Drills closer than this are taken for the same."""


@dataclass(frozen=True, slots=True)
class Through:
    """A hole a screw goes through: how it fits, its width, how its drill is named."""

    fits: str
    mm: float
    named: str


def is_metric(thread: str) -> bool:
    """Tell M3 from #4-40."""
    return thread.strip()[:1] in "Mm"


def diameter(thread: str) -> float | None:
    """Give the outside diameter of a thread; None where no table has it."""
    known = _tapping(thread)
    return known.diameter if known else None


def through(thread: str) -> tuple[Through, ...]:
    """Give the close, the usual and the wide hole; none where no table has them."""
    try:
        if is_metric(thread):
            widths = clearance(thread).values()
            return tuple(
                Through(word, mm, f"{mm:g}")
                for word, mm in zip(WORDS, widths, strict=True)
            )
        drills = clearance_inch(inch_size(thread).rpartition("-")[0]).values()
        return tuple(
            Through(word, drill(name) * float(INCH_MM), name)
            for word, name in zip(WORDS, drills, strict=True)
        )
    except BadInput:
        return ()


def usual_hole(thread: str) -> float | None:
    """Give the usual hole a screw goes through; None where no table has it."""
    return next((one.mm for one in through(thread) if one.fits == WORDS[1]), None)


def through_words(thread: str) -> str:
    """Say the holes a screw goes through, with their table: `4.3, 4.5, 4.8 mm`."""
    found = through(thread)
    if not found:
        return ""
    named = ", ".join(one.named for one in found)
    metric = is_metric(thread)
    source = table("holes", f"clearance_{'metric' if metric else 'inch'}").source
    return f"{named}{' mm' if metric else ''} ({source})"


def tap_words(thread: str) -> str:
    """Say the drill before a tap, with its table; empty where none has it."""
    known = _tapping(thread)
    if known is None:
        return ""
    source = table("holes", f"tap_{'metric' if is_metric(thread) else 'inch'}").source
    mm = "" if is_metric(thread) else f", {known.drill:.2f} mm"
    return f"{known.name}{mm} ({source})"


def nearest_drill(mm: float) -> str:
    """Name the number or letter drill, or the 64th of an inch, nearest to a width."""
    inches = mm / float(INCH_MM)
    sixty_fourths = Fraction(round(inches * 64), 64)
    named = {name: drill(name) for name in table("holes", "drills").names()}
    named[str(sixty_fourths)] = float(sixty_fourths)
    name = min(named, key=lambda one: abs(named[one] - inches))
    return f"{name} ({named[name] * float(INCH_MM):.2f} mm)"


def inch_drills(thread: str) -> str:
    """Name the inch drills nearest to the usual hole of a metric screw, and its tap.

    Empty of an inch screw, whose holes go by these drills anyhow.
    """
    if not is_metric(thread):
        return ""
    usual, known = usual_hole(thread), _tapping(thread)
    said = [f"usual {nearest_drill(usual)}"] if usual else []
    said += [f"tap {nearest_drill(known.drill)}"] if known else []
    return "; ".join(said)


def made_for(mm: float, threads: tuple[str, ...]) -> tuple[str, str]:
    """Say what a round hole of this width is for, and for which of these threads.

    The thickest screw that goes through it with no more room than a wide hole gives, or
    else the one whose tapping drill it is; empty where it is neither.
    """
    for thread in sorted(threads, key=lambda one: diameter(one) or 0.0, reverse=True):
        thick = diameter(thread) or 0.0
        for one in through(thread):
            if thick < mm <= one.mm + _NEAR_MM:
                return one.fits, thread
    for thread in threads:
        known = _tapping(thread)
        if known and abs(mm - known.drill) <= _NEAR_MM:
            return TAPPING, thread
    return "", ""


def _tapping(thread: str) -> Tapping | None:
    try:
        return tapping(thread)
    except BadInput:
        return None
