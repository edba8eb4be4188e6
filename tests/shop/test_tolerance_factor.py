"""Tolerance factors as the standards print them, and as the noncentral t has them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from logbook.errors import BadInput
from logbook.shop.measuring.tolerance_factor import Method, tolerance_factor

# ISO 16269-6:2014, exact two-sided factors, worked from its integral; Howe beside.
FACTORS = [
    (3, 0.9, 0.95, 8.3059, 8.3862),
    (10, 0.9, 0.95, 2.8563, 2.8382),
    (30, 0.9, 0.95, 2.1451, 2.1397),
    (5, 0.95, 0.95, 5.0769, 5.0935),
    (20, 0.95, 0.95, 2.7603, 2.7523),
    (100, 0.99, 0.95, 2.9355, 2.9344),
]


@pytest.mark.parametrize(("count", "coverage", "confidence", "exact", "howe"), FACTORS)
def test_tolerance_factors_by_both_methods(
    count: int, coverage: float, confidence: float, exact: float, howe: float
) -> None:
    for method, value in ((Method.EXACT, exact), (Method.HOWE, howe)):
        found = tolerance_factor(count, coverage, confidence, method)
        assert found == pytest.approx(value, abs=6e-5), method


def test_exact_factor_holds_what_it_promises() -> None:
    count, coverage = 8, 0.9
    k = tolerance_factor(count, coverage, 0.95, Method.EXACT)
    drawn = np.random.default_rng(5).normal(size=(200_000, count))
    mean, sd = drawn.mean(axis=1), drawn.std(axis=1, ddof=1)
    held = stats.norm.cdf(mean + k * sd) - stats.norm.cdf(mean - k * sd)
    # Standard error of a share of 0.95 in 200 000 is 0.0005.
    assert (held >= coverage).mean() == pytest.approx(0.95, abs=0.0025)


@settings(deadline=None, max_examples=30)
@given(st.integers(2, 200), st.floats(0.6, 0.99), st.floats(0.6, 0.99))
def test_one_sided_factor_is_the_noncentral_t(n: int, p: float, c: float) -> None:
    found = tolerance_factor(n, p, c, Method.ONE_SIDED)
    shift = stats.norm.ppf(p) * math.sqrt(n)
    assert stats.nct.cdf(found * math.sqrt(n), n - 1, shift) == pytest.approx(c)


@pytest.mark.parametrize("method", list(Method))
def test_more_readings_make_the_factor_smaller(method: Method) -> None:
    found = [tolerance_factor(n, 0.95, 0.95, method) for n in (3, 5, 10, 30, 100)]
    assert found == sorted(found, reverse=True)


@pytest.mark.parametrize(
    "bad", [(1, 0.9, 0.9), (5, 0, 0.9), (5, 0.9, 1.0), (5, math.nan, 0.9)]
)
def test_factors_outside_their_range_are_refused(
    bad: tuple[int, float, float],
) -> None:
    with pytest.raises(BadInput, match="accepted"):
        tolerance_factor(*bad, Method.EXACT)
