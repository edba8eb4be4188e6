"""Readings summed up: exact where decimals are, and as scipy and NIST have it."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from logbook.errors import BadInput
from logbook.shop.measuring.statistics import (
    mean_interval,
    root,
    student,
    summarize,
    t_test,
)

# NIST StRD, univariate: certified to 15 digits. NumAcc1 to 4 are given by rule.
MICHELSO = """
    299.85 299.74 299.9 300.07 299.93 299.85 299.95 299.98 299.98 299.88 300.0
    299.98 299.93 299.65 299.76 299.81 300.0 300.0 299.96 299.96 299.96 299.94
    299.96 299.94 299.88 299.8 299.85 299.88 299.9 299.84 299.83 299.79 299.81
    299.88 299.88 299.83 299.8 299.79 299.76 299.8 299.88 299.88 299.88 299.86
    299.72 299.72 299.62 299.86 299.97 299.95 299.88 299.91 299.85 299.87 299.84
    299.84 299.85 299.84 299.84 299.84 299.89 299.81 299.81 299.82 299.8 299.77
    299.76 299.74 299.75 299.76 299.91 299.92 299.89 299.86 299.88 299.72 299.84
    299.85 299.85 299.78 299.89 299.84 299.78 299.81 299.76 299.81 299.79 299.81
    299.82 299.85 299.87 299.87 299.81 299.74 299.81 299.94 299.95 299.8 299.81
    299.87
"""
MAVRO = """
2.00180 2.00170 2.00180 2.00190 2.00180 2.00170 2.00150 2.00140 2.00150 2.00150
2.00170 2.00180 2.00180 2.00190 2.00190 2.00210 2.00200 2.00160 2.00140 2.00130
2.00130 2.00150 2.00150 2.00160 2.00150 2.00140 2.00130 2.00140 2.00150 2.00140
2.00150 2.00160 2.00150 2.00160 2.00190 2.00200 2.00200 2.00210 2.00220 2.00230
2.00240 2.00250 2.00270 2.00260 2.00260 2.00260 2.00270 2.00260 2.00250 2.00240
"""
CERTIFIED = [
    ("NumAcc1", ["10000001", "10000003", "10000002"], "10000002", "1", "-0.5"),
    ("NumAcc2", ["1.2", *["1.1", "1.3"] * 500], "1.2", "0.1", "-0.999"),
    (
        "NumAcc3",
        ["1000000.2", *["1000000.1", "1000000.3"] * 500],
        "1000000.2",
        "0.1",
        "-0.999",
    ),
    (
        "NumAcc4",
        ["10000000.2", *["10000000.1", "10000000.3"] * 500],
        "10000000.2",
        "0.1",
        "-0.999",
    ),
    (
        "Mavro",
        MAVRO.split(),
        "2.00185600000000",
        "0.000429123454003053",
        "0.937989183438248",
    ),
    (
        "Michelso",
        MICHELSO.split(),
        "299.852400000000",
        "0.0790105478190518",
        "0.535199668621283",
    ),
]


@pytest.mark.parametrize(
    ("name", "readings", "mean", "sd", "lag1"),
    CERTIFIED,
    ids=[each[0] for each in CERTIFIED],
)
def test_certified_values_to_fifteen_digits(
    name: str, readings: list[str], mean: str, sd: str, lag1: str
) -> None:
    found = summarize(readings)
    assert found.mean == Fraction(mean), f"{name}, NIST StRD"
    assert abs(root(found.variance) / Decimal(sd) - 1) < Decimal("1.2e-15"), name
    assert abs(found.lag1 / Fraction(lag1) - 1) < Fraction(1, 10**14), name
    assert found.sd == pytest.approx(float(sd), rel=1.2e-15)


READINGS = st.lists(
    st.decimals(-1000, 1000, allow_nan=False, allow_infinity=False, places=3),
    min_size=2,
    max_size=30,
)


@given(READINGS)
def test_mean_and_deviation_agree_with_numpy(readings: list[Decimal]) -> None:
    found = summarize(readings)
    floats = np.array([float(one) for one in readings])
    assert float(found.mean) == pytest.approx(floats.mean(), abs=1e-9)
    assert found.sd == pytest.approx(floats.std(ddof=1), abs=1e-9)


@given(READINGS, st.sampled_from([Fraction(254, 10), Fraction(1, 1000)]))
def test_the_unit_of_the_readings_does_not_matter(
    readings: list[Decimal], scale: Fraction
) -> None:
    one = summarize(readings)
    other = summarize([Fraction(each) * scale for each in readings])
    assert other.mean == one.mean * scale
    assert other.variance == one.variance * scale**2
    assert other.lag1 == one.lag1


@pytest.mark.parametrize("bad", [[], ["1"], ["1", "nan"], ["1", "inf"], ["1", "x"]])
def test_readings_that_show_nothing_are_refused(bad: list[str]) -> None:
    with pytest.raises(BadInput, match="accepted"):
        summarize(bad)


@given(st.integers(1, 200), st.floats(0.5, 0.9999))
def test_student_agrees_with_scipy(freedom: int, coverage: float) -> None:
    wanted = stats.t.ppf((1 + coverage) / 2, freedom)
    assert student(freedom, coverage) == pytest.approx(wanted)
    assert student(freedom, coverage, two_sided=False) == pytest.approx(
        stats.t.ppf(coverage, freedom), abs=1e-9
    )


def test_without_doubt_about_u_student_is_normal() -> None:
    assert student(math.inf, 0.95) == pytest.approx(1.959964, abs=1e-6)


def test_interval_and_test_agree_with_scipy() -> None:
    readings = [50.0, 48, 44, 56, 61, 52, 53, 55, 67, 51]
    mean, sd = float(np.mean(readings)), float(np.std(readings, ddof=1))
    wanted = stats.ttest_1samp(readings, 50)
    found = t_test(mean, sd, 10, 50)
    assert found.t == pytest.approx(wanted.statistic)
    assert found.p == pytest.approx(wanted.pvalue)
    ends = wanted.confidence_interval(0.95)
    assert mean_interval(mean, sd, 10) == pytest.approx((ends.low, ends.high))
