"""Limits, fits and decisions: whole tables, edges of ranges, and guard bands."""

from __future__ import annotations

import itertools
import tomllib
from fractions import Fraction
from pathlib import Path

import pressfit  # type: ignore[import-untyped]
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from logbook.errors import BadInput
from logbook.shop.fitting.decision import (
    Limits,
    Proof,
    Statement,
    Verdict,
    conformance_probability,
    decide,
    guard_factor,
)
from logbook.shop.fitting.iso286 import deviations, fit, grade_width, parse_class
from logbook.shop.fitting.limits import angle, arc_text, linear, radius
from logbook.shop.sums import work_out

CELLS, SECOND = (
    tomllib.loads((Path(__file__).parent / "cells" / name).read_text("utf-8"))
    for name in ("iso286.toml", "iso286_second.toml")
)


@pytest.mark.parametrize("name", list(CELLS["classes"]))
def test_every_published_cell_of_iso_286_2_follows(name: str) -> None:
    letter, grade = parse_class(name)
    pairs = zip(CELLS["up_to"], CELLS["classes"][name], strict=True)
    for size, (upper, lower) in pairs:
        found = deviations(Fraction(size), letter, grade)
        assert (found.upper, found.lower) == (Fraction(upper), Fraction(lower)), (
            f"{name} at {size} mm, {CELLS['source']}"
        )


@pytest.mark.parametrize("name", list(SECOND["classes"]))
def test_every_cell_of_a_second_table_follows(name: str) -> None:
    letter, grade = parse_class(name)
    pairs = zip(SECOND["up_to"], SECOND["classes"][name], strict=True)
    for size, published in pairs:
        if published:
            found = deviations(Fraction(size), letter, grade)
            assert [found.upper, found.lower] == [Fraction(one) for one in published], (
                f"{name} at {size} mm, {SECOND['source']}"
            )


_ENDS = [3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225]
_ENDS += [250, 280, 315, 355, 400, 450, 500]


@pytest.mark.parametrize("letter", [*"cdefghkmnpsu", "js"])
def test_fits_are_those_of_an_independent_package(letter: str) -> None:
    for size, hole, shaft in itertools.product(_ENDS, (7, 8, 9, 11), (5, 6, 7, 9)):
        text = f"H{hole}/{letter}{shaft}"
        other = pressfit.fit(f"{size} {text}")
        one = fit(Fraction(size), text)
        assert (one.hole.upper, one.hole.lower) == (other.hole_es_um, other.hole_ei_um)
        assert float(one.shaft.upper) == pytest.approx(other.shaft_es_um), text
        assert float(one.shaft.lower) == pytest.approx(other.shaft_ei_um), text
        kinds = {other.kind, one.character}
        touching = 0 in {one.least, one.most}
        assert len(kinds) == 1 or touching, f"{size} {text}"


@pytest.mark.parametrize("name", list(CELLS["classes"]))
def test_a_range_ends_with_its_upper_size(name: str) -> None:
    letter, grade = parse_class(name)
    for size in CELLS["up_to"][:-1]:
        at = deviations(Fraction(size), letter, grade)
        beyond = deviations(Fraction(size) + Fraction(1, 1000), letter, grade)
        assert at.upper - at.lower <= beyond.upper - beyond.lower


def test_the_one_cell_off_the_rule() -> None:
    found = deviations(Fraction(300), "M", 6)
    assert found.upper == -9
    assert found.lower == -41


def test_p_in_a_small_hole_is_a_transition_fit() -> None:
    assert fit(Fraction(3), "H7/p6").character == "transition"
    assert fit(Fraction(25), "H7/p6").character == "interference"
    assert fit(Fraction(25), "H7/h6").character == "clearance"


SIZES = st.fractions(min_value=Fraction(1, 2), max_value=500, max_denominator=1000)


@given(SIZES, st.sampled_from(["c11", "d9", "f7", "g6", "h6", "k6", "n6", "p6", "s6"]))
def test_a_fit_is_what_its_clearances_say(size: Fraction, shaft: str) -> None:
    found = fit(size, f"H7/{shaft}")
    assert found.most - found.least == (
        found.hole.upper - found.hole.lower + found.shaft.upper - found.shaft.lower
    )
    said = {(True, True): "clearance", (False, False): "interference"}
    kind = said.get((found.least >= 0, found.most > 0), "transition")
    assert found.character == kind


@given(SIZES, st.integers(5, 13))
def test_coarser_grades_are_wider(size: Fraction, grade: int) -> None:
    assert grade_width(size, grade) < grade_width(size, grade + 1)


def test_grades_six_to_eleven_follow_the_tolerance_unit() -> None:
    """ISO 286-1 annex: i = 0.45 D^(1/3) + 0.001 D at the geometric mean; memory."""
    steps = {6: 10, 7: 16, 8: 25, 9: 40, 10: 64, 11: 100}
    ends = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500]
    for low, high in itertools.pairwise(ends):
        mean = (low * high) ** 0.5
        unit = 0.45 * mean ** (1 / 3) + 0.001 * mean
        for grade, count in steps.items():
            table_value = float(grade_width(Fraction(high), grade))
            assert table_value == pytest.approx(count * unit, rel=0.06, abs=1)


@pytest.mark.parametrize(
    ("size", "letter"),
    [("2001", "f"), ("3", "v"), ("0.4", "m"), ("4001", "c"), ("0.49", "f")],
)
def test_what_iso_2768_leaves_undefined_is_refused_with_its_range(
    size: str, letter: str
) -> None:
    with pytest.raises(BadInput, match="accepted") as refused:
        linear(Fraction(size), letter)
    assert "2768" in str(refused.value)


def test_half_a_millimetre_is_inside() -> None:
    assert linear(Fraction(1, 2), "f").deviation == Fraction(5, 100)
    assert radius(Fraction(1, 2), "f").deviation == Fraction(2, 10)


def test_angles_go_by_the_shorter_leg_in_minutes() -> None:
    assert angle(Fraction(11), "m").deviation == Fraction(1, 2)
    assert arc_text(Fraction(1, 12)) == "0°05′"
    with pytest.raises(BadInput):
        angle(Fraction(0), "m")


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("H4", "accepted: IT5 to IT14"),
        ("Q7", "is no tolerance class"),
        ("Js7", "mixes capitals"),
        ("7H", "is no tolerance class"),
        ("K10", "not defined over 3 mm"),
        ("P5", "grade 6 and coarser"),
    ],
)
def test_classes_outside_the_tables_are_refused(name: str, said: str) -> None:
    with pytest.raises(BadInput, match=said):
        deviations(Fraction(25), *parse_class(name))


@pytest.mark.parametrize("text", ["H7", "H7g6", "g6/H7", "h7/g6", "H7/G6"])
def test_a_fit_names_the_hole_first(text: str) -> None:
    with pytest.raises(BadInput, match="as H7/g6"):
        fit(Fraction(25), text)


def test_sizes_outside_say_the_range() -> None:
    with pytest.raises(BadInput, match="up to and including 500 mm"):
        deviations(Fraction(501), "H", 7)
    with pytest.raises(BadInput, match="accepted"):
        work_out("fit", {"nominal": "0", "fit": "H7/g6"})


BORE = Limits(Fraction("25.000"), Fraction("25.021"))
U = Fraction("0.004")
READINGS = st.fractions(min_value=24, max_value=26, max_denominator=10_000)


def test_outside_the_limit_is_not_yet_proved_wrong() -> None:
    found = decide(Fraction("25.023"), BORE, U, None)
    assert found.verdict is Verdict.REJECT
    assert found.proof is Proof.NOT_PROVEN
    assert found.statement is Statement.CONDITIONAL_FAIL
    assert found.too_close


@pytest.mark.parametrize(
    ("reading", "proof"),
    [
        ("25.004", Proof.CONFORMS),
        ("25.0039", Proof.NOT_PROVEN),
        ("24.996", Proof.NOT_PROVEN),
        ("24.9959", Proof.DOES_NOT_CONFORM),
        ("25.025", Proof.NOT_PROVEN),
        ("25.0251", Proof.DOES_NOT_CONFORM),
    ],
)
def test_the_ends_of_the_zones_are_exact(reading: str, proof: Proof) -> None:
    assert decide(Fraction(reading), BORE, U, None).proof is proof


@given(READINGS, st.fractions(0, Fraction(1, 50), max_denominator=10_000))
def test_a_wider_guard_band_never_proves_more(reading: Fraction, w: Fraction) -> None:
    narrow = decide(reading, BORE, U, w)
    wide = decide(reading, BORE, U, w + Fraction(1, 1000))
    if wide.proof is not Proof.NOT_PROVEN:
        assert narrow.proof is wide.proof
    assert narrow.verdict is wide.verdict


@given(st.floats(24.95, 25.07), st.floats(0.001, 0.02))
def test_conformance_probability_is_the_normal_area(y: float, u: float) -> None:
    found = conformance_probability(y, u, 25.0, 25.021)
    wanted = stats.norm.cdf(25.021, y, u) - stats.norm.cdf(25.0, y, u)
    assert found == pytest.approx(wanted, abs=1e-12)


def test_a_tiny_probability_keeps_its_digits() -> None:
    found = conformance_probability(0.0, 1.0, 9.0, None)
    assert found == pytest.approx(stats.norm.sf(9.0), rel=1e-9)
    assert found > 0


@given(st.floats(0.5, 0.999999))
def test_the_guard_band_gives_the_wanted_probability(p: float) -> None:
    width = guard_factor(p)
    assert conformance_probability(10 - width, 1.0, None, 10.0) == pytest.approx(p)


def test_decisions_need_limits_the_right_way_round() -> None:
    with pytest.raises(BadInput, match="no limits are drawn"):
        Limits(None, None)
    with pytest.raises(BadInput, match="above the upper"):
        Limits(Fraction(2), Fraction(1))
    with pytest.raises(BadInput, match="accepted: more than 0"):
        conformance_probability(1.0, 0.0, None, 2.0)
    with pytest.raises(BadInput, match="accepted: from"):
        guard_factor(1.0)
    with pytest.raises(BadInput):
        work_out("accept-or-reject", {"measured": "nan", "upper": "2"})
