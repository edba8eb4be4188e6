"""Control charts and capability: constants by quadrature, points outside named."""

from __future__ import annotations

import math

import pytest
from scipy import integrate, stats

from logbook.errors import BadInput
from logbook.shop.measuring.capability import capability, cp_interval
from logbook.shop.measuring.control import grouped, individuals
from logbook.shop.measuring.control_constants import constants


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
