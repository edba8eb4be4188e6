"""Readings summed up: mean, spread, interval, and whether one stands apart.

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
from logbook.shop.answers import Answer, Result
from logbook.shop.given import READING, Given, Input, Kind, above, between
from logbook.shop.measuring.slips import slip_said
from logbook.shop.measuring.student import quantile, upper_tail
from logbook.shop.sums import Sum

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
    chance = (1 + _share(coverage)) / 2 if two_sided else _share(coverage)
    if math.isinf(freedom):
        from statistics import NormalDist

        return NormalDist().inv_cdf(chance)
    return quantile(freedom, chance)


def _share(coverage: float) -> float:
    if not 0 < coverage < 1:
        raise BadInput(f"found {coverage:g}; accepted: between 0 and 1, as 0.95")
    return coverage


def mean_interval(
    mean: float, sd: float, count: int, confidence: float = 0.95
) -> tuple[float, float]:
    """Give the interval that covers the true mean: mean ± t s / √n."""
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


@dataclass(frozen=True, slots=True)
class Outlier:
    """The reading farthest from the mean, judged by Grubbs' test."""

    reading: Fraction
    g: float
    critical_one_sided: float
    critical_two_sided: float

    @property
    def stands_apart(self) -> bool:
        """Whether G exceeds the two-sided critical value."""
        return self.g > self.critical_two_sided


def grubbs_critical(
    count: int, alpha: float = 0.05, *, two_sided: bool = True
) -> float:
    """Give the critical value of Grubbs' test (e-Handbook 1.3.5.17.1).

    Raises:
        BadInput: fewer than three readings, or alpha not between 0 and 1.
    """
    if count < 3:
        raise BadInput(f"found {count} readings; accepted: at least three for Grubbs")
    tail = _share(alpha) / (2 * count if two_sided else count)
    square = student(count - 2, 1 - tail, two_sided=False) ** 2
    return (count - 1) / math.sqrt(count) * math.sqrt(square / (count - 2 + square))


def grubbs(readings: Sequence[Fraction], alpha: float = 0.05) -> Outlier:
    """Judge the reading farthest from the mean.

    Raises:
        BadInput: fewer than three readings, or all alike.
    """
    found = summarize(readings)
    if not found.variance:
        raise BadInput("all readings are alike; accepted: readings with some spread")
    far = max(readings, key=lambda reading: abs(reading - found.mean))
    return Outlier(
        far,
        float(abs(far - found.mean)) / found.sd,
        grubbs_critical(found.count, alpha, two_sided=False),
        grubbs_critical(found.count, alpha),
    )


def _compute_summary(given: Given) -> Answer:
    readings, level = given.exacts("readings"), given.number("confidence")
    found = summarize(readings)
    low, high = mean_interval(float(found.mean), found.sd, found.count, level)
    read = max(decimals(reading) for reading in readings)
    places = spread_places(found.error, read + 1)
    wide = spread_places(found.sd, read)
    interval = f"end of the {100 * level:.4g} % interval"
    results = [
        Result("count", found.count, "", 0, "readings"),
        Result("mean", float(found.mean), READING, places, "mean"),
        Result("sd", found.sd, READING, wide, "standard deviation, n − 1"),
        Result("standard_error", found.error, READING, places, "of the mean"),
        Result("low", low, READING, places, f"lower {interval}"),
        Result("high", high, READING, places, f"upper {interval}"),
        Result("t", student(found.count - 1, level), "", 3, "Student's t"),
        Result("smallest", float(min(readings)), READING, read, "smallest reading"),
        Result("largest", float(max(readings)), READING, read, "largest reading"),
        Result("lag1", float(found.lag1), "", 2, "autocorrelation of neighbours"),
    ]
    if given.has("reference") and found.variance:
        results += _tested(
            t_test(
                float(found.mean),
                found.sd,
                found.count,
                given.number("reference"),
                level,
            ),
            float(found.mean) - given.number("reference"),
        )
    slip = slip_said(readings, given.figures_in)
    return Answer(tuple(results), warnings=slip, alarms=slip)


def spread_places(spread: float, without: int = 6) -> int:
    """Decimals that show two digits of a spread; `without` one where it is 0."""
    return 1 - math.floor(math.log10(spread)) if spread > 0 else without


def decimals(value: Fraction) -> int:
    """Decimals a reading has, at most 6; a fraction of an inch shows 4."""
    for count in range(7):
        if (value * 10**count).denominator == 1:
            return count
    return 4


def _tested(test: TTest, off: float) -> list[Result]:
    return [
        Result(
            "difference", off, READING, spread_places(abs(off / (test.t or 1)), 6),
            "mean less reference",
        ),
        Result("dof", test.freedom, "", 0, "degrees of freedom"),
        Result("t_value", test.t, "", 3, "t of the difference"),
        Result("critical", test.critical, "", 3, "two-sided critical t"),
        Result("p", test.p, "", 4, "chance of as much by luck alone"),
        Result("differs", test.differs, "", 0, "whether the mean misses the reference"),
    ]  # fmt: skip


def _compute_interval(given: Given) -> Answer:
    mean, sd = given.number("mean"), given.number("sd")
    count, level = given.count("count"), given.number("confidence")
    low, high = mean_interval(mean, sd, count, level)
    places = spread_places(sd / math.sqrt(count))
    results = [
        Result("low", low, READING, places, "lower end"),
        Result("high", high, READING, places, "upper end"),
        Result("t", student(count - 1, level), "", 3, "Student's t, two-sided"),
    ]
    if given.has("reference"):
        reference = given.number("reference")
        test = t_test(mean, sd, count, reference, level)
        results += _tested(test, mean - reference)
    return Answer(tuple(results))


def _compute_student(given: Given) -> Answer:
    two = given.word("sides") == "two"
    value = student(given.number("dof"), given.number("coverage"), two_sided=two)
    return Answer((Result("t", value, "", 4, f"{given.word('sides')}-sided quantile"),))


def _compute_grubbs(given: Given) -> Answer:
    readings, alpha = given.exacts("readings"), given.number("alpha")
    found = grubbs(readings, alpha)
    return Answer(
        (
            Result(
                "outlier", float(found.reading), READING, decimals(found.reading),
                "the reading farthest out",
            ),
            Result("g", found.g, "", 3, "its distance in standard deviations"),
            Result(
                "critical", found.critical_two_sided, "", 3, "two-sided critical value"
            ),
            Result(
                "critical_one_sided", found.critical_one_sided, "", 3,
                "where only this side was ever in doubt",
            ),
            Result("stands_apart", found.stands_apart, "", 0, "two-sided verdict"),
        ),
        warnings=(
            ("A reading is thrown out for a cause that was found, not for its size.",)
            if found.stands_apart
            else ()
        ),
    )  # fmt: skip


def _compute_grubbs_critical(given: Given) -> Answer:
    two = given.word("sides") == "two"
    value = grubbs_critical(given.count("count"), given.number("alpha"), two_sided=two)
    return Answer((Result("critical", value, "", 4, f"{given.word('sides')}-sided"),))


READINGS = Input(
    "readings", "readings, with or without a unit", kind=Kind.FIGURE, many=True,
    also=("data", "values"),
)  # fmt: skip
CONFIDENCE = Input(
    "confidence", "level of confidence, as 0.95", kind=Kind.NUMBER,
    accept=between(0, 1), default="0.95", also=("coverage", "level"), share=True,
)  # fmt: skip
_ALPHA = Input(
    "alpha", "chance of a false alarm", kind=Kind.NUMBER, accept=between(0, 1),
    default="0.05", share=True,
)  # fmt: skip
SIDES = Input(
    "sides", "one- or two-sided", kind=Kind.CHOICE, choices=("two", "one"),
    default="two",
    words={"two-sided": "two", "one-sided": "one", "2": "two", "1": "one"},
)  # fmt: skip
_REFERENCE = Input(
    "reference", "value the mean should have", kind=Kind.FIGURE, optional=True,
    also=("mu0",),
)  # fmt: skip

SUMS: tuple[Sum, ...] = (
    Sum(
        name="readings",
        also=("summary", "mean", "statistics", "mean-and-sd"),
        title="Mean, standard deviation and interval of some readings",
        inputs=(READINGS, CONFIDENCE, _REFERENCE),
        compute=_compute_summary,
        formula="mean ± t s / √n, s with n − 1; decimals are worked out exactly",
        source="NIST/SEMATECH e-Handbook 1.3.5.1 to 1.3.5.2",
        how="read",
        caution="Readings at different places are not averaged: the smallest governs "
        "entry, the largest the looseness.",
        example={"readings": "178.60, 178.65, 178.62, 178.68"},
        relied_on=False,
    ),
    Sum(
        name="mean-interval",
        also=("confidence-interval", "interval"),
        title="Interval for a mean, from mean, standard deviation and count",
        inputs=(
            Input("mean", "mean", kind=Kind.FIGURE),
            Input("sd", "standard deviation, n − 1", kind=Kind.FIGURE,
                  accept=above(0), also=("s", "sigma", "standard-deviation")),
            Input("count", "readings", kind=Kind.COUNT, also=("n",)),
            CONFIDENCE,
            _REFERENCE,
        ),
        compute=_compute_interval,
        formula="mean ± t s / √n",
        source="NIST/SEMATECH e-Handbook 1.3.5.2 and 7.2.2",
        how="read",
        example={"mean": "9.26146", "sd": "0.02278881", "count": "195"},
        relied_on=False,
    ),
    Sum(
        name="student-t",
        also=("t-quantile", "t"),
        title="Quantile of Student's t",
        inputs=(
            Input("dof", "degrees of freedom", kind=Kind.NUMBER,
                  accept=above(0), also=("degrees-of-freedom", "df", "nu")),
            Input("coverage", "share covered, as 0.95", kind=Kind.NUMBER,
                  accept=between(0, 1), default="0.95", also=("confidence",),
                  share=True),
            SIDES,
        ),
        compute=_compute_student,
        formula="t with P(|T| < t) = coverage, or P(T < t) one-sided",
        source="JCGM 100:2008 Table G.2",
        how="read",
        example={"dof": "9"},
        relied_on=False,
    ),
    Sum(
        name="outlier",
        also=("grubbs", "outlier-test"),
        title="Does one reading stand apart? (Grubbs)",
        inputs=(READINGS, _ALPHA),
        compute=_compute_grubbs,
        formula="G = max |x − mean| / s against (n−1)/√n × √(t²/(n−2+t²)), t at "
        "α/(2n), n − 2 degrees of freedom",
        source="NIST/SEMATECH e-Handbook 1.3.5.17.1",
        how="read",
        example={"readings": "199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, "
                 "245.57"},
        relied_on=False,
    ),
    Sum(
        name="outlier-critical",
        also=("grubbs-critical",),
        title="Critical value of Grubbs' test",
        inputs=(
            Input("count", "readings", kind=Kind.COUNT, also=("n",)), _ALPHA, SIDES,
        ),
        compute=_compute_grubbs_critical,
        formula="(n−1)/√n × √(t²/(n−2+t²))",
        source="NIST/SEMATECH e-Handbook 1.3.5.17.1",
        how="read",
        example={"count": "10"},
        relied_on=False,
    ),
)  # fmt: skip
