"""Whether one reading stands apart from the others: Grubbs' test."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.digits import decimals
from logbook.shop.given import READING, Given, Input, Kind, between
from logbook.shop.measuring.statistics import proper_share, student, summarize
from logbook.shop.measuring.statistics_inputs import READINGS, SIDES
from logbook.shop.sums import Sum


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
    tail = proper_share(alpha) / (2 * count if two_sided else count)
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


_ALPHA = Input(
    "alpha", "chance of a false alarm", kind=Kind.NUMBER, accept=between(0, 1),
    default="0.05", share=True,
)  # fmt: skip


SUMS: tuple[Sum, ...] = (
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
