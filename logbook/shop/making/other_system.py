"""The size the other system sells instead: 1/4 in beside 6 mm, 3/8 in beside 10 mm.

Sizes of rod, bar, plate and board that are commonly stocked (common practice, no
source); 1 in is exactly 25.4 mm.
"""

from __future__ import annotations

import re
from fractions import Fraction

from logbook.quantity import Quantity, parse_quantity
from logbook.units import INCH_MM

METRIC_MM = tuple(
    Fraction(one)
    for one in (
        "1", "1.5", "2", "2.5", "3", "4", "5", "6", "8", "10", "12", "15", "16", "18",
        "20", "25", "30", "40", "50",
    )
)  # fmt: skip
INCHES = tuple(
    Fraction(one)
    for one in (
        "1/16", "3/32", "1/8", "5/32", "3/16", "1/4", "5/16", "3/8", "1/2", "5/8",
        "3/4", "1", "5/4", "3/2", "2",
    )
)  # fmt: skip
ALUMINIUM_IN = tuple(
    Fraction(one)
    for one in (
        "0.020", "0.025", "0.032", "0.040", "0.050", "0.063", "0.080", "0.090", "0.100",
        "0.125", "0.160", "0.190", "0.250",
    )
)  # fmt: skip
"""Aluminium sheet in inches, as commonly stocked (common practice, no source)."""
SHEET_MM = tuple(
    Fraction(one)
    for one in ("0.5", "0.8", "1", "1.2", "1.5", "2", "2.5", "3", "4", "5", "6")
)
NEAR = Fraction(7, 100)
"""Farther apart, as a share of the size, one is no neighbour of the other."""
_SAME_MM = Fraction(2, 100)
"""So near is 6.35 mm, or 0.79 mm, to the fraction of an inch it stands for."""


def other_system(size: Quantity) -> Quantity | None:
    """Give the neighbouring size of the other system; None where it has none.

    Only of a size that is itself one that is sold, in mm or in fractions of an inch.
    """
    if size.metal or size.dimension != "length":
        return None
    mm = size.to("mm")
    if mm in METRIC_MM:
        found = _nearest(mm, [one * INCH_MM for one in INCHES])
        return None if found is None else parse_quantity(f"{in_inches(found)} in")
    if any(abs(mm - one * INCH_MM) <= _SAME_MM for one in INCHES):
        found = _nearest(mm, METRIC_MM)
        return None if found is None else parse_quantity(f"{float(found):g} mm")
    return None


def _nearest(
    mm: Fraction, sizes: list[Fraction] | tuple[Fraction, ...]
) -> Fraction | None:
    found = min(sizes, key=lambda one: abs(one - mm))
    return found if abs(found - mm) <= NEAR * mm else None


def in_inches(mm: Fraction) -> str:
    """Give a length in mm as inches: 3/8, 1 1/4."""
    whole, part = divmod(mm / INCH_MM, 1)
    return " ".join(str(one) for one in (whole, part) if one)


def sheets_beside(size: Quantity, material: str) -> tuple[Quantity, ...]:
    """Give the sheets of the other system next below and above one of aluminium.

    The one that is as thick, to a fiftieth of a millimetre, alone; none for another
    metal, whose inch sheets go by a gauge of their own.
    """
    if size.dimension != "length" or not re.search(r"(?i)alumin", material):
        return ()
    mm = size.to("mm")
    if size.unit == "mm":
        sold = [(one * INCH_MM, f"{float(one):.3f} in") for one in ALUMINIUM_IN]
    else:
        sold = [(one, f"{float(one):g} mm") for one in SHEET_MM]
    same = [words for of, words in sold if abs(of - mm) <= _SAME_MM]
    below = [words for of, words in sold if of < mm][-1:]
    above = [words for of, words in sold if of > mm][:1]
    found = (parse_quantity(words) for words in (same or [*below, *above]))
    return tuple(one for one in found if isinstance(one, Quantity))
