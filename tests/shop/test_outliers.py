"""Readings that stand apart: Grubbs as published, and slips of the hand."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.errors import BadInput
from logbook.shop.measuring.outliers import grubbs, grubbs_critical
from logbook.shop.sums import work_out

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
