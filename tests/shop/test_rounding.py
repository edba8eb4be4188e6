"""Rounding on the decimals as written, ties to even."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import BadInput
from logbook.shop.measuring.rounding import (
    compare,
    decimal,
    mixed,
    nearest_fraction,
    to_figures,
    to_step,
)


def test_a_tie_on_paper_is_a_tie() -> None:
    assert round(2.675, 2) == 2.67
    assert str(to_figures(Decimal("2.675"), 3)) == "2.68"
    assert str(to_figures(Decimal("9.96"), 2)) == "10"
    assert str(to_figures(Decimal("0.0995"), 2)) == "0.10"


@given(
    st.decimals(-1000, 1000, allow_nan=False, allow_infinity=False, places=4),
    st.integers(1, 12),
)
def test_figures_agree_with_the_decimal_arithmetic(value: Decimal, count: int) -> None:
    wanted = Context(prec=count, rounding=ROUND_HALF_EVEN).plus(value)
    assert to_figures(value, count) == wanted


@given(st.fractions(-100, 100, max_denominator=997), st.sampled_from([2, 16, 64]))
def test_the_nearest_fraction_is_within_half_a_division(
    inches: Fraction, finest: int
) -> None:
    near, off = nearest_fraction(inches, finest)
    assert abs(off) <= Fraction(1, 2 * finest)
    assert near == inches + off
    assert (near * finest).denominator == 1


@given(st.fractions(-50, 50), st.fractions(-50, 50))
def test_methods_disagree_only_within_half_a_step(
    observed: Fraction, limit: Fraction
) -> None:
    whole = Fraction(round(limit))
    found = compare(observed, whole, Fraction(1), upper=True)
    if found.by_rounding != found.absolute:
        assert 0 < observed - whole <= Fraction(1, 2)


def test_mixed_numbers_read_as_a_rule_shows_them() -> None:
    shown = [mixed(Fraction(n, 16)) for n in (0, 3, 16, 19, -19)]
    assert shown == ["0", "3/16", "1", "1 3/16", "-1 3/16"]


def test_thirds_keep_sixty_digits() -> None:
    assert str(decimal(Fraction(1, 3))) == "0." + "3" * 60


def test_steps_and_figures_outside_their_range_are_refused() -> None:
    for figures in (0, 31):
        with pytest.raises(BadInput, match="accepted: 1 to 30"):
            to_figures(Decimal(1), figures)
    with pytest.raises(BadInput, match="accepted: more than 0"):
        to_step(Fraction(1), Fraction(0))
