"""Numbers that carry their dimension, so that millimetres never meet degrees.

A `Measure` is a number in one coherent set of base units (mm, g, s, K, °, A and
the currencies) with the exponents of that dimension. The number may be an
exact fraction, an array of samples, or anything else with the four operations.
Temperatures are points or differences: 58 °C − 22 °C is a difference of 36 K,
and two points are never added.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from logbook.errors import BadInput
from logbook.units import UNITS, find_unit

Exponents = tuple[tuple[str, int], ...]
"""Base and power, in alphabetical order, without zero powers."""

_FORCE = (("length", 1), ("mass", 1), ("time", -2))
_ENERGY = (("length", 2), ("mass", 1), ("time", -2))
_POWER = (("length", 2), ("mass", 1), ("time", -3))

DIMENSIONS: dict[str, tuple[Exponents, int]] = {
    "length": ((("length", 1),), 1),
    "area": ((("length", 2),), 1),
    "angle": ((("angle", 1),), 1),
    "temperature": ((("temperature", 1),), 1),
    "time": ((("time", 1),), 1),
    "mass": ((("mass", 1),), 1),
    "force": (_FORCE, 10**6),
    "torque": (_ENERGY, 10**9),
    "pressure": ((("length", -1), ("mass", 1), ("time", -2)), 10**6),
    "power": (_POWER, 10**9),
    "current": ((("current", 1),), 1),
    "voltage": ((("current", -1), *_POWER), 10**9),
    "resistance": ((("current", -2), *_POWER), 10**9),
    "frequency": ((("time", -1),), 1),
    "speed": ((("length", 1), ("time", -1)), 1),
    "ratio": ((), 1),
    "count": ((), 1),
    **{
        f"money {name}": (((f"money {name}", 1),), 1)
        for name in ("EUR", "USD", "GBP", "CHF")
    },
}
"""Exponents of every dimension in `UNITS`, and its base unit in coherent units."""


@dataclass(frozen=True, slots=True)
class Measure:
    """A number in coherent units, its dimension, and whether it is a point.

    Only a temperature that was typed in °C or °F is a `point`.
    """

    number: Any
    exponents: Exponents = ()
    point: bool = False


def measured(value: Any, unit: str) -> Measure:
    """Make a measure from a value in `unit` (empty: a plain number).

    Raises:
        BadInput: the unit is not known.
    """
    if not unit:
        return Measure(value)
    known = find_unit(unit)
    exponents, scale = DIMENSIONS[known.dimension]
    if known.symbol == "K":
        return Measure(value, exponents)
    factor, offset = known.factor * scale, known.offset * scale
    if isinstance(value, Fraction | int):
        return Measure(value * factor + offset, exponents, bool(offset or _point(unit)))
    number = value * float(factor) + float(offset) if offset else value * float(factor)
    return Measure(number, exponents, bool(offset or _point(unit)))


def _point(unit: str) -> bool:
    return find_unit(unit).symbol == "°C"


def in_unit(measure: Measure, unit: str, what: str = "the result") -> Any:
    """Give the number of a measure in `unit` (empty: a plain number).

    Raises:
        BadInput: the measure is of another dimension.
    """
    if not unit:
        if measure.exponents:
            raise BadInput(
                f"{what} is a {describe(measure.exponents)}; accepted: a plain number"
            )
        return measure.number
    known = find_unit(unit)
    exponents, scale = DIMENSIONS[known.dimension]
    if measure.exponents != exponents:
        raise BadInput(
            f"{what} is a {describe(measure.exponents)}; "
            f"accepted: {known.dimension}, because it is wanted in {known.symbol}"
        )
    factor, offset = known.factor * scale, known.offset * scale
    if not measure.point:
        offset = Fraction(0)
    if known.symbol == "K" and measure.point:
        offset = known.offset
    if isinstance(measure.number, Fraction):
        return (measure.number - offset) / factor
    return (measure.number - float(offset)) / float(factor)


def describe(exponents: Exponents) -> str:
    """Name a dimension in words: length, length², length / time, plain number."""
    for name, (known, _) in DIMENSIONS.items():
        if known == exponents and name not in {"ratio", "count"}:
            return name
    if not exponents:
        return "plain number"
    over = " × ".join(_power(base, power) for base, power in exponents if power > 0)
    under = " × ".join(_power(base, -power) for base, power in exponents if power < 0)
    return f"{over or '1'} / {under}" if under else over


def _power(base: str, power: int) -> str:
    raised = "".join("⁰¹²³⁴⁵⁶⁷⁸⁹"[int(digit)] for digit in str(power))
    return base if power == 1 else f"{base}{raised}"


def base_unit(exponents: Exponents) -> str:
    """Give the symbol of the coherent unit of a named dimension, else empty."""
    for name, (known, scale) in DIMENSIONS.items():
        if known == exponents and scale == 1 and name not in {"ratio", "count"}:
            for symbol, unit in UNITS.items():
                if unit.dimension == name and unit.factor == 1:
                    return symbol
    return ""


def combined(one: Exponents, other: Exponents, sign: int) -> Exponents:
    """Add (sign 1) or subtract (sign −1) the powers of two dimensions."""
    powers = dict(one)
    for base, power in other:
        powers[base] = powers.get(base, 0) + sign * power
    return tuple(sorted((base, power) for base, power in powers.items() if power))
