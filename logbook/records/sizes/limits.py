"""Sizes as a drawing gives them: nominal with its limits, read from one text.

`180.0 ±1.2`, `179.7 +0.1 -0.2`, `36 +0.2/0`, `0.1 to 0.5`, or a nominal alone,
for which the drawing gives no limits.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity, quantity

_PLUS_MINUS = re.compile(r"^(?P<nominal>.+?)\s*(?:±|\+/-|\+-|\+−)\s*(?P<both>.+)$")
_TWO = re.compile(
    r"^(?P<nominal>.+?)\s*(?P<first>[+\-−]\s*[0-9.,/ ]+?|(?<![\d.,])0)"
    r"\s*/?\s*(?P<second>[+\-−]\s*[0-9.,]+|(?<![\d.,])0)\s*(?P<unit>[^\d\s.,]+)?$"
)
_RANGE = re.compile(r"^(?P<low>.+?)\s*(?:\bto\b|…|\.\.+|–)\s*(?P<high>.+)$")


@dataclass(frozen=True, slots=True)
class Drawn:
    """A size as drawn; limits are None where the drawing gives none."""

    nominal: Quantity | None
    lower: Quantity | None = None
    upper: Quantity | None = None


def parse_drawn(text: str, unit: str) -> Drawn:
    """Read a size with its limits; `unit` is meant where the text names none.

    Raises:
        BadInput: the text is no size, or its lower limit is above the upper one.
    """
    text = " ".join(text.split())
    if match := _PLUS_MINUS.match(text):
        nominal, both = _pair(match["nominal"], match["both"], unit)
        return _limits(text, nominal, -both.value, both.value, both)
    if match := _RANGE.match(text):
        low, high = _pair(match["low"], match["high"], unit)
        if low.to(high.unit) > high.value:
            raise BadInput(f"“{text}” runs backwards; accepted: smallest to largest")
        return Drawn(None, low, high)
    if match := _TWO.match(text):
        named = match["unit"] or unit
        nominal = parse_quantity(match["nominal"], named)
        first = _deviation(match["first"], named)
        second = _deviation(match["second"], named)
        low, high = sorted((first, second), key=lambda q: q.value)
        fine = min(first, second, key=lambda q: q.step)
        return _limits(text, nominal, low.value, high.value, fine)
    return Drawn(parse_quantity(text, unit))


def _pair(first: str, second: str, unit: str) -> tuple[Quantity, Quantity]:
    """Read two quantities of which only the second may name the unit."""
    last = parse_quantity(second, unit)
    return parse_quantity(first, last.unit), last


def _deviation(text: str, unit: str) -> Quantity:
    return parse_quantity(text.replace(" ", ""), unit)


def _limits(
    text: str, nominal: Quantity, low: Fraction, high: Fraction, fine: Quantity
) -> Drawn:
    if fine.dimension != nominal.dimension:
        raise BadInput(f"“{text}” mixes two units; accepted: one kind of unit")
    middle = nominal.to(fine.unit)
    step = min(fine.step, nominal.step)
    return Drawn(
        nominal,
        quantity(middle + low, fine.unit, step),
        quantity(middle + high, fine.unit, step),
    )
