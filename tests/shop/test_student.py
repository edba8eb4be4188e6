"""Student's t against its closed forms for few degrees of freedom, and scipy."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import special, stats

from logbook.shop.measuring.student import quantile, upper_tail

CHANCES = st.floats(1e-9, 0.99)


@given(CHANCES)
def test_with_one_degree_of_freedom_it_is_the_law_of_cauchy(chance: float) -> None:
    # tan(π(p − ½)), said so that a small chance keeps its digits
    wanted = -1 / math.tan(math.pi * chance)
    assert quantile(1, chance) == pytest.approx(wanted, rel=1e-9, abs=1e-15)


@given(CHANCES)
def test_with_two_it_is_an_algebraic_function(chance: float) -> None:
    wanted = (2 * chance - 1) / math.sqrt(2 * chance * (1 - chance))
    assert quantile(2, chance) == pytest.approx(wanted, rel=1e-9, abs=1e-15)


@given(st.floats(0.5, 1e5), st.floats(0, 50))
def test_the_tail_agrees_with_scipy(freedom: float, t: float) -> None:
    assert upper_tail(freedom, t) == pytest.approx(stats.t.sf(t, freedom), rel=1e-7)


@given(st.floats(0.5, 1e5), st.floats(1e-6, 0.4))
def test_the_quantile_gives_back_its_tail(freedom: float, tail: float) -> None:
    there = quantile(freedom, 1 - tail)
    assert upper_tail(freedom, there) == pytest.approx(tail, rel=1e-8)
    assert quantile(freedom, tail) == pytest.approx(-there, rel=1e-9)


@pytest.mark.parametrize("freedom", [0.01, 0.3, 1.0, 3.0, 30.0, 9e5, 1.1e6, 1e9, 1e13])
@pytest.mark.parametrize("chance", [1e-300, 1e-20, 0.025, 0.9, 0.9999, 1 - 1e-15])
def test_the_ends_of_its_range_are_right_too(freedom: float, chance: float) -> None:
    found = quantile(freedom, chance)
    near = special.stdtrit(min(freedom, 1e7), chance)
    if freedom > 1e7:
        near = special.ndtri(chance)  # scipy's own t strays there
    assert found == pytest.approx(near, rel=1e-6)
