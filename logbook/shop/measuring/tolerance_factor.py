"""Tolerance factors: mean ± k s holds a share of all pieces, with confidence.

The two-sided factor exists twice: Howe's approximation, which handbooks print,
and the exact one of ISO 16269-6. They differ in the third digit, so the method
is always named. The one-sided factor is exact by the noncentral t.
"""

from __future__ import annotations

import math
from enum import StrEnum
from typing import Any

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.digits import spread_places
from logbook.shop.given import READING, Given, Input, Kind, at_least, between
from logbook.shop.measuring.statistics import summarize
from logbook.shop.measuring.statistics_inputs import READINGS
from logbook.shop.sums import Sum

NODES = 64


class Method(StrEnum):
    """How a factor is worked out."""

    EXACT = "exact"
    HOWE = "howe"
    ONE_SIDED = "one-sided"


def tolerance_factor(
    count: int, coverage: float, confidence: float, method: Method
) -> float:
    """Give k for a sample of `count`, by the named method.

    Raises:
        BadInput: fewer than two readings, or a share not between 0 and 1.
    """
    if count < 2:
        raise BadInput(f"found {count} readings; accepted: at least two")
    for name, share in (("coverage", coverage), ("confidence", confidence)):
        if not 0 < share < 1:
            raise BadInput(f"{name}: found {share:g}; accepted: between 0 and 1")
    match method:
        case Method.EXACT:
            return _exact(count, coverage, confidence)
        case Method.HOWE:
            return _howe(count, coverage, confidence)
        case Method.ONE_SIDED:
            return _one_sided(count, coverage, confidence)


def _low_chi_square(freedom: int, confidence: float) -> float:
    """Give the value that chi-square exceeds with this confidence."""
    from scipy.special import gammaincinv

    return 2 * float(gammaincinv(freedom / 2, 1 - confidence))


def _howe(count: int, coverage: float, confidence: float) -> float:
    from scipy.special import ndtri

    z = float(ndtri((1 + coverage) / 2))
    freedom = count - 1
    low = _low_chi_square(freedom, confidence)
    return z * math.sqrt(freedom * (1 + 1 / count) / low)


def _one_sided(count: int, coverage: float, confidence: float) -> float:
    from scipy.special import nctdtrit, ndtri

    shift = float(ndtri(coverage)) * math.sqrt(count)
    return float(nctdtrit(count - 1, shift, confidence)) / math.sqrt(count)


def _exact(count: int, coverage: float, confidence: float) -> float:
    """Solve the integral of ISO 16269-6 for k.

    The mean misses by x/√n; the half width that then still holds the coverage
    must be reached by k s. The chance of that is averaged over x.
    """
    import numpy as np
    from scipy.special import gammaincc

    nodes, weights = np.polynomial.legendre.leggauss(NODES)
    misses = (nodes + 1) / 2 * 8.5
    weights = weights * 8.5 / 2 * np.exp(-(misses**2) / 2) * math.sqrt(2 / math.pi)
    needed = _half_width(misses / math.sqrt(count), coverage)
    freedom = count - 1

    def reached(k: float) -> float:
        enough = gammaincc(freedom / 2, freedom * (needed / k) ** 2 / 2)
        return float(weights @ enough)

    low, high = 0.0, 1.0
    while reached(high) < confidence:
        low, high = high, high * 2
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if reached(middle) < confidence else (low, middle)
    return high


def _half_width(off: Any, coverage: float) -> Any:
    """Give r with Φ(off + r) − Φ(off − r) = coverage, by Newton's method."""
    import numpy as np
    from scipy.special import ndtr, ndtri

    width = off + float(ndtri((1 + coverage) / 2))
    for _ in range(60):
        held = ndtr(off + width) - ndtr(off - width)
        slope = np.exp(-((off + width) ** 2) / 2) + np.exp(-((off - width) ** 2) / 2)
        width -= (held - coverage) / (slope / math.sqrt(2 * math.pi))
    return width


def _compute(given: Given) -> Answer:
    method = Method(given.word("method"))
    count, coverage = given.count("count"), given.number("coverage")
    k = tolerance_factor(count, coverage, given.number("confidence"), method)
    results = [
        Result("factor", k, "", 3, f"k, {method.value}"),
        Result("method", method.value, "", 0, "how it was worked out"),
    ]
    if given.has("mean") and given.has("sd"):
        results += _limits(given.number("mean"), given.number("sd"), k)
    return Answer(tuple(results))


def _limits(mean: float, sd: float, k: float) -> list[Result]:
    places = spread_places(sd)
    return [
        Result("lower", mean - k * sd, READING, places, "mean − k s"),
        Result("upper", mean + k * sd, READING, places, "mean + k s"),
    ]


def _compute_readings(given: Given) -> Answer:
    method = Method(given.word("method"))
    found = summarize(given.exacts("readings"))
    k = tolerance_factor(
        found.count, given.number("coverage"), given.number("confidence"), method
    )
    return Answer(
        (
            Result("factor", k, "", 3, f"k, {method.value}"),
            Result("method", method.value, "", 0, "how it was worked out"),
            *_limits(float(found.mean), found.sd, k),
        )
    )


_COVERAGE = Input(
    "coverage", "share of all pieces, as 0.9", kind=Kind.NUMBER, accept=between(0, 1),
    default="0.95", share=True,
)  # fmt: skip
_CONFIDENCE = Input(
    "confidence", "level of confidence, as 0.99", kind=Kind.NUMBER,
    accept=between(0, 1), default="0.95", share=True,
)  # fmt: skip
_METHOD = Input(
    "method", "exact (ISO 16269-6), howe, or one-sided (noncentral t)",
    kind=Kind.CHOICE, choices=tuple(Method), default="exact",
)  # fmt: skip
_CAUTION = (
    "Holds for pieces that fall normally and come from one settled process; "
    "Howe's factor is an approximation."
)

SUMS: tuple[Sum, ...] = (
    Sum(
        name="tolerance-factor",
        also=("tolerance-interval-factor",),
        title="Factor k of a statistical tolerance interval, mean ± k s",
        inputs=(
            Input("count", "readings in the sample", kind=Kind.COUNT,
                  accept=at_least(2), also=("n",)),
            _COVERAGE,
            _CONFIDENCE,
            _METHOD,
            Input("mean", "mean of the sample", kind=Kind.FIGURE, optional=True),
            Input("sd", "standard deviation of the sample", kind=Kind.FIGURE,
                  accept=at_least(0), optional=True),
        ),
        compute=_compute,
        formula="exact: integral of ISO 16269-6; Howe: z √((n−1)(1+1/n)/χ²); "
        "one-sided: noncentral t / √n",
        source="ISO 16269-6:2014; NIST/SEMATECH e-Handbook 7.2.6.3",
        how="read",
        caution=_CAUTION,
        example={"count": "43", "coverage": "0.9", "confidence": "0.99",
                 "method": "howe"},
        relied_on=False,
    ),
    Sum(
        name="tolerance-interval",
        title="Interval that holds a share of all pieces, from readings",
        inputs=(READINGS, _COVERAGE, _CONFIDENCE, _METHOD),
        compute=_compute_readings,
        formula="mean ± k s; one-sided: one of the two ends",
        source="ISO 16269-6:2014; NIST/SEMATECH e-Handbook 7.2.6.3",
        how="read",
        caution=_CAUTION,
        example={"readings": "0.68, 0.74, 0.71, 0.66, 0.73, 0.70, 0.69"},
    ),
)  # fmt: skip
