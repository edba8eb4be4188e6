"""The kinds of number a formula is worked out in: exact, with slopes, or samples.

Each kind says how a constant is made, how members are chosen from, and how it is
divided; the rest is + − × of the numbers themselves.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from logbook.errors import BadInput
from logbook.shop.chains.measure import Measure


@dataclass(frozen=True, slots=True)
class Kind:
    """How one kind of number is made, compared and divided."""

    constant: Callable[[Measure], Measure]
    choose: Callable[[str, list[Any]], Any]
    divide: Callable[[Any, Any], Any]


def _zero() -> BadInput:
    return BadInput("the formula divides by zero; accepted: a divisor other than 0")


def _divide(over: Any, under: Any) -> Any:
    if not under:
        raise _zero()
    return over / under


def _choose(function: str, numbers: list[Any]) -> Any:
    if function == "abs":
        return abs(numbers[0])
    return min(numbers) if function == "min" else max(numbers)


EXACT = Kind(lambda measure: measure, _choose, _divide)


@dataclass(frozen=True, slots=True)
class Dual:
    """A value with its slopes, and whether it is linear in the names."""

    value: Fraction
    slopes: Mapping[str, Fraction]
    linear: bool

    def __neg__(self) -> Dual:
        return _mix(self, -1, self, 0, linear=self.linear, value=-self.value)

    def __add__(self, other: Dual) -> Dual:
        both = self.linear and other.linear
        return _mix(self, 1, other, 1, linear=both, value=self.value + other.value)

    def __sub__(self, other: Dual) -> Dual:
        both = self.linear and other.linear
        return _mix(self, 1, other, -1, linear=both, value=self.value - other.value)

    def __mul__(self, other: Dual) -> Dual:
        both = self.linear and other.linear and not (self.slopes and other.slopes)
        value = self.value * other.value
        return _mix(self, other.value, other, self.value, linear=both, value=value)

    def __truediv__(self, other: Dual) -> Dual:
        if not other.value:
            raise _zero()
        value = self.value / other.value
        linear = self.linear and not other.slopes
        slope = -value / other.value
        return _mix(self, 1 / other.value, other, slope, linear=linear, value=value)


def _mix(
    one: Dual,
    by: Fraction | int,
    other: Dual,
    with_: Fraction | int,
    *,
    linear: bool,
    value: Fraction,
) -> Dual:
    slopes = {name: by * slope for name, slope in one.slopes.items()}
    for name, slope in other.slopes.items():
        slopes[name] = slopes.get(name, Fraction(0)) + with_ * slope
    return Dual(value, slopes, linear)


def _choose_dual(function: str, numbers: list[Dual]) -> Dual:
    bent = not any(number.slopes for number in numbers)
    if function == "abs":
        one = numbers[0]
        kept = -one if one.value < 0 else one
    else:
        pick = min if function == "min" else max
        kept = pick(numbers, key=lambda number: number.value)
    return Dual(kept.value, kept.slopes, linear=kept.linear and bent)


DUAL = Kind(
    lambda measure: Measure(
        Dual(measure.number, {}, linear=True), measure.exponents, measure.point
    ),
    _choose_dual,
    lambda over, under: over / under,
)


def _divide_arrays(over: Any, under: Any) -> Any:
    import numpy as np

    if not np.all(under):
        raise _zero()
    return over / under


def _choose_arrays(function: str, numbers: list[Any]) -> Any:
    import numpy as np

    if function == "abs":
        return np.abs(numbers[0])
    best = numbers[0]
    for number in numbers[1:]:
        best = (np.minimum if function == "min" else np.maximum)(best, number)
    return best


ARRAY = Kind(
    lambda measure: Measure(float(measure.number), measure.exponents, measure.point),
    _choose_arrays,
    _divide_arrays,
)
