"""Uncertainties and rules of thumb reach the result, and are said."""

from __future__ import annotations

import pytest

from logbook.errors import BadInput
from logbook.shop.answers import NOT_AN_APPROVAL, Result
from logbook.shop.sums import find_sum, work_out


def test_typed_uncertainty_reaches_the_results() -> None:
    plain = {"legs": ("41.35", "62.00"), "thickness": "2.0", "radius": "2"}
    typed = {**plain, "blank": "100.00 ±0.06 mm"}
    result = work_out("bend-coupon", typed).result("neutral_factor")
    # only the blank is uncertain: dK = 0.06 / (pi/2 * 2)
    assert result.uncertainty == pytest.approx(0.06 / 3.14159265, rel=1e-6)
    assert result.shown == "0.480 ±0.020"


def test_uncertainties_add_as_squares() -> None:
    typed = {"drawn": "50 ±0.03", "measured": "49.73 ±0.04"}
    assert work_out("kerf-measured", typed).result("kerf").uncertainty == pytest.approx(
        0.05
    )


def test_uncertainty_at_the_edge_of_what_is_accepted_is_one_sided() -> None:
    typed = {"offset": "0.5 mm", "height": "0.01 ±0.02 mm"}
    spread = work_out("lean", typed).result("lean").uncertainty
    assert isinstance(spread, float)
    assert spread > 0


def test_factor_outside_its_range_is_worked_out_and_warned_of() -> None:
    typed = {"radius": "2", "thickness": "1", "neutral_factor": "0.6"}
    answer = work_out("bend-allowance", typed)
    assert answer.number("neutral_factor") == pytest.approx(0.6)
    assert "outside 0 to 0.5" in answer.warnings[0]


@pytest.mark.parametrize(
    ("value", "places", "shown"),
    [
        (99.97, 0, "over 99 %"),
        (99.97, 1, "over 99.9 %"),
        (100.0, 1, "100.0 %"),
        (0.004, 2, "below 0.01 %"),
        (0.0, 2, "0.00 %"),
        (57.2, 0, "57 %"),
    ],
)
def test_a_share_is_neither_none_nor_all_by_rounding(
    value: float, places: int, shown: str
) -> None:
    assert Result("chance", value, "%", places).shown == shown


def test_allowance_by_rule_shows_what_the_rules_leave_in_doubt() -> None:
    typed = {"legs": "60; 100; 60", "radius": "3", "thickness": "2"}
    result = work_out("flat-length", typed).result("flat_length")
    # both bends share the factor, so their doubts add straight: 2 · π/2 · 2 mm · 0.07
    assert result.uncertainty == pytest.approx(0.4398, abs=1e-4)
    assert result.shown == "211.74 ±0.44 mm"
    coupon = work_out("flat-length", {**typed, "neutral_factor": "0.42"})
    assert coupon.result("flat_length").shown == "212.06 mm"
    known = work_out("flat-length", {**typed, "neutral_factor": "0.42 ±0.02"})
    assert known.result("flat_length").uncertainty == pytest.approx(0.1257, abs=1e-4)


def test_lines_far_from_the_datum_carry_the_doubt_of_the_bends_before() -> None:
    typed = {"legs": "60; 100; 60", "radius": "3", "thickness": "2"}
    spread = work_out("setup-sheet", typed).result("lines").uncertainty
    assert spread == pytest.approx((0.10996, 0.32987), abs=1e-4)


def test_usual_kerf_is_said_to_be_none_of_the_shops() -> None:
    answer = work_out("kerf-path", {"size": "36", "laser": "diode"})
    assert answer.result("path").uncertainty == pytest.approx(0.2 / 3**0.5)
    assert "cut a test piece" in answer.warnings[0]
    with pytest.raises(BadInput, match="kerf: not given"):
        work_out("kerf-path", {"size": "36"})


def test_slots_with_less_to_spare_than_boards_vary_are_too_close() -> None:
    typed = {"species": "beech", "width": "240", "humidity_from": "30"}
    typed |= {"humidity_to": "65"}
    for play, begins in (("6.0", "no"), ("6.5", "too close"), ("7.5", "yes")):
        answer = work_out("wood-movement", {**typed, "slot_play": play})
        assert str(answer["slots_enough"]).startswith(begins), play


@pytest.mark.parametrize(
    "name", ["tap-drill", "thread-percent", "fit", "thermal-growth"]
)
def test_what_is_cut_by_is_no_approval(name: str) -> None:
    each = find_sum(name)
    assert work_out(each, each.example).note == NOT_AN_APPROVAL
