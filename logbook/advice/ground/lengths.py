"""Lengths as they are said: in the user's unit and no finer than they can be read."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from logbook.shop.answers import Result, figure
from logbook.units import UNITS, convert, find_unit

USUAL = {"mm": 0.01, "cm": 0.001, "in": 0.001, "thou": 1.0, "µm": 10.0, "m": 0.00001}
"""Step in which a length is said where no instrument's resolution is known."""


@dataclass(frozen=True, slots=True)
class Shown:
    """Says lengths given in mm in `unit`; `step` is the finest step, in mm."""

    unit: str
    step: float
    places: int

    def __call__(self, length: float) -> str:
        """Say a length given in mm."""
        text = figure(self.value(length), self.places)
        return f"{'0' + text[2:] if text == '-0' else text} {self.unit}"

    def value(self, length: float) -> float:
        """Give a length given in mm in the unit that is shown."""
        text = f"{length:.9f}"
        if self.unit == "mm":
            return float(text)
        return float(convert(Fraction(text), "mm", self.unit))

    def result(self, name: str, length: float, meaning: str = "") -> Result:
        """Give a length as a figure of an answer."""
        return Result(name, self.value(length), self.unit, self.places, meaning)


def shown_in(unit: str, resolution: float | None) -> Shown:
    """Give how lengths are said in a unit with a resolution in mm."""
    symbol = find_unit(unit).symbol
    if UNITS[symbol].dimension != "length":
        symbol = "mm"
    width = float(UNITS[symbol].factor)
    step = resolution or USUAL.get(symbol, 0.01) * width
    places = next(n for n in range(7) if 10.0**-n <= step / width * 1.001 or n == 6)
    return Shown(symbol, step, places)
