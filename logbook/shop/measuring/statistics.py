"""Readings summed up: mean, spread, interval, and whether the mean misses a value.

Mean and variance are worked out exactly from the decimals as typed, because in
binary the third digit of a spread can be lost (NIST StRD NumAcc3 and NumAcc4).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext
from fractions import Fraction

from logbook.errors import BadInput
from logbook.shop.measuring.student import quantile, upper_tail

MOST_READINGS = 100_000


@dataclass(frozen=True, slots=True)
class Summary:
    """Count, exact mean and exact variance (n − 1) of some readings.

    `lag1` is the autocorrelation of neighbours, divided by the full sum of
    squares; it is 0 where all readings are alike.
    """

    count: int
    mean: Fraction
    variance: Fraction
    lag1: Fraction

    @property
    def sd(self) -> float:
        """Standard deviation (n − 1), right to the last place of a float."""
        return float(root(self.variance))

    @property
    def error(self) -> float:
        """Standard error of the mean."""
        return self.sd / math.sqrt(self.count)


def mean_of(values: Sequence[float]) -> float:
    """Give the mean of floats, nothing lost while they are added up."""
    return math.fsum(values) / len(values)


def root(value: Fraction) -> Decimal:
    """Give the square root of an exact value to 40 digits."""
    with localcontext() as context:
        context.prec = 60
        return +(Decimal(value.numerator) / Decimal(value.denominator)).sqrt()


def summarize(readings: Sequence[Fraction | int | str | Decimal]) -> Summary:
    """Sum up at least two readings, exactly; decimals may be given as text.

    Raises:
        BadInput: fewer than two readings, or one that is no finite number.
    """
    values = [_exact(reading) for reading in readings]
    if len(values) < 2:
        raise BadInput(
            f"{len(values)} reading shows no spread; accepted: at least two readings"
        )
    if len(values) > MOST_READINGS:
        raise BadInput(f"{len(values)} readings; accepted: at most {MOST_READINGS}")
    common = math.lcm(*{value.denominator for value in values})
    whole = [int(value * common) for value in values]
    count, total = len(whole), sum(whole)
    off = [count * one - total for one in whole]
    squares = sum(one * one for one in off)
    neighbours = sum(one * other for one, other in itertools.pairwise(off))
    return Summary(
        count,
        Fraction(total, count * common),
        Fraction(squares, (count - 1) * count * count * common * common),
        Fraction(neighbours, squares) if squares else Fraction(0),
    )


def _exact(reading: Fraction | int | str | Decimal) -> Fraction:
    try:
        return Fraction(reading)
    except (ValueError, OverflowError, ZeroDivisionError):
        raise BadInput(
            f"“{str(reading)[:20]}” is no reading; accepted: a finite number"
        ) from None


def student(freedom: float, coverage: float, *, two_sided: bool = True) -> float:
    """Give the quantile of Student's t that covers so much.

    Raises:
        BadInput: no degree of freedom, or a coverage not between 0 and 1.
    """
    if not freedom > 0:
        raise BadInput(f"found {freedom:g} degrees of freedom; accepted: more than 0")
    chance = (1 + proper_share(coverage)) / 2 if two_sided else proper_share(coverage)
    if math.isinf(freedom):
        from statistics import NormalDist

        return NormalDist().inv_cdf(chance)
    return quantile(freedom, chance)


def proper_share(coverage: float) -> float:
    """Give back a share between 0 and 1.

    Raises:
        BadInput: it is not between them.
    """
    if not 0 < coverage < 1:
        raise BadInput(f"found {coverage:g}; accepted: between 0 and 1, as 0.95")
    return coverage


def mean_interval(
    mean: float, sd: float, count: int, confidence: float = 0.95
) -> tuple[float, float]:
    """Give the interval that covers the true mean: mean ± t s / √n.

    Raises:
        BadInput: fewer than two readings.
    """
    if count < 2:
        raise BadInput(f"found {count} readings; accepted: at least two")
    half = student(count - 1, confidence) * sd / math.sqrt(count)
    return mean - half, mean + half


@dataclass(frozen=True, slots=True)
class TTest:
    """Whether a mean differs from a reference (Student, one sample)."""

    t: float
    freedom: int
    critical: float
    p: float

    @property
    def differs(self) -> bool:
        """Whether |t| exceeds its critical value."""
        return abs(self.t) > self.critical


def t_test(
    mean: float, sd: float, count: int, reference: float, confidence: float = 0.95
) -> TTest:
    """Test, two-sided, whether readings with this mean miss a reference.

    Raises:
        BadInput: fewer than two readings, or no spread.
    """
    if count < 2 or sd <= 0:
        raise BadInput("readings without spread; accepted: two that differ, or more")
    value = (mean - reference) / (sd / math.sqrt(count))
    chance = 2 * upper_tail(count - 1, abs(value))
    return TTest(value, count - 1, student(count - 1, confidence), chance)
