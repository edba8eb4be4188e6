"""Bias of a gauge over its range: a straight line through its errors.

Masters of known size are read several times each; the slope of reading less
reference says whether the gauge stretches, the intercept whether it is off.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.digits import spread_places
from logbook.shop.given import Given, Input, Kind, between
from logbook.shop.measuring.gauge_study import figures_of, labelled
from logbook.shop.measuring.statistics import mean_of, student
from logbook.shop.sums import Sum


@dataclass(frozen=True, slots=True)
class Line:
    """Bias over reference as a straight line, with the t of both its figures."""

    slope: float
    intercept: float
    t_slope: float
    t_intercept: float
    share: float
    freedom: int
    spread: float


def linearity(groups: Sequence[tuple[float, Sequence[float]]]) -> Line:
    """Fit the bias of single readings against their references, by least squares.

    `share` is the coefficient of determination, `spread` the scatter about the
    line.

    Raises:
        BadInput: fewer than two references, or fewer than three readings.
    """
    pairs = [(ref, one - ref) for ref, readings in groups for one in readings]
    if len({ref for ref, _ in pairs}) < 2 or len(pairs) < 3:
        raise BadInput(
            "one reference shows no line; accepted: at least two references and "
            "three readings"
        )
    count = len(pairs)
    x = mean_of([ref for ref, _ in pairs])
    y = mean_of([bias for _, bias in pairs])
    sxx = math.fsum((ref - x) ** 2 for ref, _ in pairs)
    syy = math.fsum((bias - y) ** 2 for _, bias in pairs)
    sxy = math.fsum((ref - x) * (bias - y) for ref, bias in pairs)
    slope = sxy / sxx
    left = math.fsum((bias - y - slope * (ref - x)) ** 2 for ref, bias in pairs)
    spread = math.sqrt(left / (count - 2))
    if not spread:
        raise BadInput(
            "the readings do not scatter; accepted: readings with some spread"
        )
    intercept = y - slope * x
    return Line(
        slope,
        intercept,
        slope / (spread / math.sqrt(sxx)),
        intercept / (spread * math.sqrt(1 / count + x * x / sxx)),
        1 - left / syy if syy else 0.0,
        count - 2,
        spread,
    )


def _compute_linearity(given: Given) -> Answer:
    accepted = "reference: its readings, as 2.0: 2.7 2.5 2.4"
    groups = [
        (figures_of(reference)[0], figures)
        for reference, figures in labelled(given.words("groups"), accepted)
    ]
    found = linearity(groups)
    critical = student(found.freedom, given.number("confidence"))
    biases = tuple(mean_of(figures) - reference for reference, figures in groups)
    fine = spread_places(found.spread) + 1
    even = abs(found.t_slope) <= critical and abs(found.t_intercept) <= critical
    return Answer(
        (
            Result("bias", biases, "", fine, "mean reading less reference, each"),
            Result("slope", found.slope, "", fine, "bias gained per unit of size"),
            Result("intercept", found.intercept, "", fine, "bias at size 0"),
            Result("t_slope", found.t_slope, "", 2, "against the critical t"),
            Result("t_intercept", found.t_intercept, "", 2, "against the critical t"),
            Result("critical", critical, "", 2, "two-sided critical t"),
            Result(
                "r2", found.share, "", 2, "share of the bias that the line explains"
            ),
            Result("dof", found.freedom, "", 0, "degrees of freedom"),
            Result("linear", even, "", 0, "no bias and no slope shown"),
        )
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        name="gauge-linearity",
        also=("linearity", "bias"),
        title="Does a gauge read true over its range? Bias and linearity",
        inputs=(
            Input("groups", "a reference and its readings: 2.0: 2.7 2.5 2.4",
                  kind=Kind.TEXT, many=True, also=("readings", "references")),
            Input("confidence", "level of confidence, as 0.95", kind=Kind.NUMBER,
                  accept=between(0, 1), default="0.95", also=("coverage",), share=True),
        ),
        compute=_compute_linearity,
        formula="bias = slope × reference + intercept by least squares over all "
        "readings; t of both with n − 2 degrees of freedom",
        source="AIAG, Measurement Systems Analysis, 4th edition, chapter III B",
        how="memory",
        example={"groups": ("2.0: 2.1 2.0 2.2", "6.0: 6.0 6.1 5.9",
                            "10.0: 9.8 9.9 9.9")},
    ),
)  # fmt: skip
