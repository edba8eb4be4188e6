"""Statistics: exact where decimals are, and as scipy and the standards have it."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy import integrate, stats

from logbook.errors import BadInput
from logbook.shop.measuring.capability import capability, cp_interval
from logbook.shop.measuring.control import grouped, individuals
from logbook.shop.measuring.control_constants import constants
from logbook.shop.measuring.gauge_bias import linearity
from logbook.shop.measuring.gauge_variance import by_anova, by_ranges
from logbook.shop.measuring.gum import Row, budget, rounded, standard_uncertainty
from logbook.shop.measuring.outliers import grubbs, grubbs_critical
from logbook.shop.measuring.statistics import (
    mean_interval,
    root,
    student,
    summarize,
    t_test,
)
from logbook.shop.measuring.tolerance_factor import Method, tolerance_factor
from logbook.shop.sums import work_out

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


# Grubbs' critical values at 5 %: a published table, its misprint at n = 7
# (2.202 for 2.020) left out of account.
GRUBBS_TWO = {3: 1.1543, 5: 1.715, 7: 2.02, 8: 2.1266, 10: 2.29, 20: 2.7082, 30: 2.9085}
GRUBBS_ONE = {3: 1.1531, 5: 1.6714, 7: 1.9381, 8: 2.0317, 10: 2.1761, 30: 2.7451}


def test_grubbs_critical_values_are_the_published_ones() -> None:
    for count, value in GRUBBS_TWO.items():
        assert grubbs_critical(count) == pytest.approx(value, abs=6e-5), count
    for count, value in GRUBBS_ONE.items():
        found = grubbs_critical(count, two_sided=False)
        assert found == pytest.approx(value, abs=6e-5), count


@settings(deadline=None)
@given(
    st.lists(st.integers(0, 100), min_size=3, max_size=20).filter(
        lambda values: len(set(values)) > 1
    )
)
def test_grubbs_picks_the_reading_farthest_from_the_mean(values: list[int]) -> None:
    readings = [Fraction(value) for value in values]
    found = grubbs(readings)
    mean = sum(readings, Fraction(0)) / len(readings)
    assert abs(found.reading - mean) == max(abs(one - mean) for one in readings)
    assert found.g <= (len(values) - 1) / math.sqrt(len(values)) + 1e-9


def test_readings_all_alike_have_no_outlier() -> None:
    with pytest.raises(BadInput, match="all readings are alike"):
        grubbs([Fraction(1)] * 5)


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


@pytest.mark.parametrize("size", [2, 5, 10, 25])
def test_range_constants_agree_with_quadrature(size: int) -> None:
    def curve(x: float) -> float:
        below = stats.norm.cdf(x)
        return float(1 - below**size - (1 - below) ** size)

    wanted, _ = integrate.quad(curve, -9, 9, epsabs=1e-10)
    assert constants(size).d2 == pytest.approx(wanted, abs=1e-8)


def test_pairs_have_constants_in_closed_form() -> None:
    pair = constants(2)
    assert pair.d2 == pytest.approx(2 / math.sqrt(math.pi), abs=1e-10)
    assert pair.d3 == pytest.approx(math.sqrt(2 - 4 / math.pi), abs=1e-7)
    assert pair.c4 == pytest.approx(math.sqrt(2 / math.pi), abs=1e-12)


def test_a_point_outside_is_named() -> None:
    found = individuals([5.0, 5.1, 4.9, 5.0, 9.0, 5.1, 4.9, 5.0, 5.1, 5.0])
    assert found.readings.outside == (5,)
    assert found.ranges.outside == (4, 5)


def test_charts_need_enough_and_even_groups() -> None:
    with pytest.raises(BadInput, match="at least three"):
        individuals([1.0, 2.0])
    with pytest.raises(BadInput, match="same number"):
        grouped([[1.0, 2.0], [1.0]])
    with pytest.raises(BadInput, match="from 2 to 50"):
        constants(1)


def test_capability_with_one_limit_and_its_interval() -> None:
    assert capability(16, 2, None, 20).cpk == pytest.approx(2 / 3)
    assert capability(16, 2, None, 20).cp is None
    low, high = cp_interval(1.0, 30, 0.95)
    assert low == pytest.approx(math.sqrt(stats.chi2.ppf(0.025, 29) / 29))
    assert high == pytest.approx(math.sqrt(stats.chi2.ppf(0.975, 29) / 29))
    with pytest.raises(BadInput, match="no limits are drawn"):
        capability(16, 2, None, None)
    with pytest.raises(BadInput, match="accepted: more than 0"):
        capability(16, 0, 1, 2)


def test_budget_with_correlation_adds_straight_at_one() -> None:
    rows = [Row("a", 3.0), Row("b", 4.0)]
    assert budget(rows).combined == pytest.approx(5)
    assert budget(rows, correlations=[(0, 1, 1.0)]).combined == pytest.approx(7)
    assert budget(rows, correlations=[(0, 1, -1.0)]).combined == pytest.approx(1)


def test_budget_without_freedom_is_normal() -> None:
    found = budget([Row("a", 3.0), Row("b", 4.0, 2.0)])
    assert math.isinf(found.freedom)
    assert found.expanded == pytest.approx(1.959964 * math.hypot(3, 8), rel=1e-6)


def test_budget_refuses_what_cannot_be() -> None:
    with pytest.raises(BadInput, match="at least one"):
        budget([])
    with pytest.raises(BadInput, match="accepted: u of 0 or more"):
        budget([Row("a", -1.0)])
    with pytest.raises(BadInput, match="accepted: a width"):
        standard_uncertainty(1.0, "square")
    with pytest.raises(BadInput, match="dof: found 1 for 2 rows"):
        work_out("uncertainty-budget", {"u": "1, 2", "dof": "3"})
    with pytest.raises(BadInput, match="dof: found “x”"):
        work_out("uncertainty-budget", {"u": "1", "dof": "x"})


@pytest.mark.parametrize(
    ("value", "spread", "shown"),
    [
        ("10.05762", "0.027", ("10.058", "0.027")),
        ("1234.5", "28.05", ("1234", "28")),
        ("0.5", "0.0996", ("0.50", "0.10")),
        ("123456", "1300", ("123500", "1300")),
        ("-0.00012", "0.0001", ("-0.00012", "0.00010")),
    ],
)
def test_values_carry_the_figures_of_their_uncertainty(
    value: str, spread: str, shown: tuple[str, str]
) -> None:
    assert rounded(Decimal(value), Decimal(spread)) == shown


def test_values_without_uncertainty_cannot_be_cut() -> None:
    for bad in ("0", "-1", "nan"):
        with pytest.raises(BadInput):
            rounded(Decimal(1), Decimal(bad))


_STUDY = st.integers(2, 3).flatmap(
    lambda k: st.integers(2, 5).flatmap(
        lambda n: st.lists(
            st.lists(
                st.lists(st.floats(9, 11), min_size=n, max_size=n),
                min_size=3,
                max_size=3,
            ),
            min_size=k,
            max_size=k,
        )
    )
)


@given(_STUDY)
def test_the_squares_of_a_gauge_study_add_up(study: list[list[list[float]]]) -> None:
    runs = {str(who): passes for who, passes in enumerate(study)}
    every = [one for passes in study for each in passes for one in each]
    assume(np.std(every) > 1e-3)
    assume(all(np.ptp([one[0] for one in passes]) > 1e-3 for passes in study))
    found = by_anova(runs)
    assert found.anova
    assert found.anova.total == pytest.approx(np.var(every) * len(every), rel=1e-6)
    assert min(found.repeatability, found.operator, found.part) >= 0


def test_a_gauge_study_needs_equal_runs_that_differ() -> None:
    with pytest.raises(BadInput, match="every operator measures every part"):
        by_anova({"a": [[1, 2], [1, 2]], "b": [[1, 2]]})
    with pytest.raises(BadInput, match="at least two of each"):
        by_ranges({"a": [[1, 2], [1, 2]]})
    for work in (by_anova, by_ranges):
        with pytest.raises(BadInput, match="do not differ"):
            work({"a": [[1, 2], [1, 2]], "b": [[1, 2], [1, 2]]})


def test_bias_over_size_is_the_line_of_least_squares() -> None:
    groups = [(2.0, [2.1, 2.0]), (6.0, [6.0, 6.2]), (9.0, [9.3, 9.1])]
    found = linearity(groups)
    size = [ref for ref, readings in groups for _ in readings]
    off = [one - ref for ref, readings in groups for one in readings]
    wanted = stats.linregress(size, off)
    assert found.slope == pytest.approx(wanted.slope)
    assert found.intercept == pytest.approx(wanted.intercept)
    assert found.t_slope == pytest.approx(wanted.slope / wanted.stderr)
    assert found.t_intercept == pytest.approx(
        wanted.intercept / wanted.intercept_stderr
    )
    assert found.share == pytest.approx(wanted.rvalue**2)
    with pytest.raises(BadInput, match="at least two references"):
        linearity([(2.0, [2.1, 2.2, 2.3])])


def slips(*readings: str) -> str:
    answer = work_out("readings", {"readings": readings})
    return " ".join(answer.alarms)


def test_a_decimal_point_that_slipped_is_called_out_before_the_mean() -> None:
    said = slips("178.60", "1786.5", "178.62", "178.68")
    assert "1786.5" in said
    assert "perhaps the decimal point" in said
    assert "1786.5" in slips("178.60 mm", "1786.5 mm", "178.62 mm")


def test_a_reading_far_out_is_called_a_slip_without_a_cause() -> None:
    said = slips("178.60", "187.65", "178.62", "178.68")
    assert "187.65" in said
    assert "decimal" not in said


@pytest.mark.parametrize("scale", [0.001, 1, 1000])
@given(st.lists(st.integers(-100, 100), min_size=3, max_size=12))
def test_honest_scatter_is_never_called_a_slip(scale: float, steps: list[int]) -> None:
    # A tenth of a percent each way: no hand slips by so little.
    readings = tuple(f"{scale * (100 + step / 1000):.9f}" for step in steps)
    assert not slips(*readings)
