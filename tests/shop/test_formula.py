"""Formulas: exact, unit-safe, and deaf to everything else."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity, quantity
from logbook.shop.chains.evaluation import exact, sampled, sensitivities
from logbook.shop.chains.formula import LONGEST, Name, read_formula
from logbook.shop.sums import work_out

VALUES = {
    name: parse_quantity(text)
    for name, text in {
        "base.opening": "178.60 mm",
        "base@left.opening": "7 1/32 in",
        "bar.length": "178.3 mm",
        "gate.face": "51 °C",
        "room.air": "22 °C",
        "lid.mass": "120 g",
        "bend.angle": "89.6°",
        "spacer.count": "4 pcs",
    }.items()
}


def worth(text: str, unit: str = "mm") -> Fraction:
    return exact(read_formula(text), VALUES, unit)


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("base.opening - bar.length", "mm", Fraction(3, 10)),
        ("base.opening − 0.3 mm", "mm", Fraction(1783, 10)),
        ("(base.opening + bar.length) / 2", "mm", Fraction(17845, 100)),
        ("2 × 3/16 in", "in", Fraction(3, 8)),
        ("1 3/8 in", "mm", Fraction("34.925")),
        ("10 mm ÷ 4", "mm", Fraction(5, 2)),
        ("10 mm / 1/4 in", "", Fraction(200, 127)),
        ("min(base.opening, base@left.opening)", "mm", Fraction("178.59375")),
        ("max(1 mm, 2 mm, 0.5 cm)", "mm", Fraction(5)),
        ("abs(bar.length - base.opening)", "mm", Fraction(3, 10)),
        ("-(1 mm - 3 mm) × 2", "mm", Fraction(4)),
        ("2 - 3 - 4", "", Fraction(-5)),
        ("24 / 2 / 3", "", Fraction(4)),
        ("2 + 3 × 4", "", Fraction(14)),
        ("--2", "", Fraction(2)),
        ("gate.face - room.air", "K", Fraction(29)),
        ("room.air + 13 K", "°C", Fraction(35)),
        ("min(gate.face, room.air)", "°F", Fraction("71.6")),
        ("spacer.count × 2 mm", "mm", Fraction(8)),
        ("5 N·m / 20 mm", "N", Fraction(250)),
        ("lid.mass × 2", "kg", Fraction(24, 100)),
        ("90° - bend.angle", "°", Fraction(2, 5)),
        ("50 % × 3 mm", "mm", Fraction(3, 2)),
        ("120 mm / 60 mm/s", "s", Fraction(2)),
        ("6 mm/min(2, 3)", "mm", Fraction(3)),
    ],
)
def test_formula_comes_to(text: str, unit: str, value: Fraction) -> None:
    assert worth(text, unit) == value


@pytest.mark.parametrize(
    ("text", "unit", "said"),
    [
        ("base.opening - 2", "mm", "a length and a plain number cannot be added"),
        ("base.opening + bend.angle", "mm", "cannot be added or subtracted"),
        ("base.opening × bar.length", "mm", "the formula is a area"),
        ("base.opening", "", "accepted: a plain number"),
        ("gate.face + room.air", "°C", "two temperatures cannot be added"),
        ("gate.face × 2", "°C", "cannot be multiplied"),
        ("-gate.face", "°C", "nor one be made negative"),
        ("1 mm / 0", "mm", "divides by zero"),
        ("1 mm / (2 - 2)", "mm", "divides by zero"),
        ("3/0 in", "mm", "divides by zero"),
        ("lid.width", "mm", "lid.width has no value here"),
        ("", "mm", "nothing was typed"),
        ("1 mm +", "mm", "ends too early"),
        ("(1 mm", "mm", "ends too early; accepted here: )"),
        ("1 mm)", "mm", "found “)”"),
        ("1 mm 2 mm", "mm", "found “2”"),
        ("1,5 mm", "mm", "a decimal has a point"),
        ("abs(1,5)", "", "abs has 2 members"),
        ("2 ** 3", "", "found “*”"),
        ("2 ^ 3", "", "found “^”"),
        ("1e5", "", "“e5” is no name"),
        ("nan", "", "“nan” is no name"),
        ("inf", "", "“inf” is no name"),
        ("5 furlongs", "", "“furlongs” is no unit"),
        ("__import__('os')", "", "is no name"),
        ("base.opening.real", "mm", "is no name"),
        ("Base.opening", "mm", "is no name"),
        ("sqrt(4)", "", "is no name"),
        ("min()", "", "found “)”"),
        ("max(1 mm, 2)", "mm", "cannot be compared by max"),
        ("x if y else z", "", "is no name"),
        ("[1]", "", "found “[”"),
        ("lambda: 1", "", "is no name"),
        ("1 mm; 2 mm", "mm", "found “;”"),
        ("1" * (LONGEST + 1), "", "characters are no formula"),
    ],
)
def test_everything_else_is_refused_in_one_sentence(
    text: str, unit: str, said: str
) -> None:
    with pytest.raises(BadInput) as refused:
        worth(text, unit)
    assert said in str(refused.value)
    assert "accepted" in str(refused.value)
    assert "\n" not in str(refused.value)


def test_a_thousand_parentheses_are_refused_without_ado() -> None:
    with pytest.raises(BadInput, match="nested more than 40 deep"):
        read_formula("(" * 1000 + "1" + ")" * 1000)
    with pytest.raises(BadInput, match="nested more than 40 deep"):
        read_formula("abs(" * 500 + "1" + ")" * 500)


def test_a_long_flat_sum_needs_no_depth() -> None:
    assert worth("+".join(["1 mm"] * 800)) == 800
    assert worth("-" * 999 + "1", "") == -1


def test_names_are_listed_once_in_order() -> None:
    formula = read_formula("b@left.x - a.y + b@left.x × 2")
    assert formula.names == (Name("b", "left", "x"), Name("a", "", "y"))


def test_sensitivities_are_per_unit_of_each_name() -> None:
    formula = read_formula("base@left.opening - 2 × bar.length")
    found = sensitivities(formula, VALUES, "mm")
    assert found.slopes == {
        "base@left.opening": Fraction(254, 10),
        "bar.length": Fraction(-2),
    }
    assert found.linear


@pytest.mark.parametrize(
    ("text", "linear"),
    [
        ("base.opening × 2 / 3 - bar.length", True),
        ("base.opening × bar.length / 1 mm", False),
        ("1 mm × 1 mm / bar.length", False),
        ("max(base.opening, bar.length)", False),
        ("abs(base.opening - bar.length)", False),
        ("base.opening - max(1 mm, 2 mm)", True),
    ],
)
def test_whether_a_formula_is_linear_is_noticed(text: str, linear: bool) -> None:
    assert sensitivities(read_formula(text), VALUES, "mm").linear == linear


LENGTHS = st.fractions(min_value=-100, max_value=100, max_denominator=64)


@given(LENGTHS, LENGTHS.filter(bool), LENGTHS)
def test_slopes_agree_with_small_steps(
    one: Fraction, two: Fraction, three: Fraction
) -> None:
    formula = read_formula("a.x × b.x / 2 mm - c.x × c.x / b.x + a.x")
    values = dict(
        zip(
            ("a.x", "b.x", "c.x"),
            (quantity(value, "mm") for value in (one, two, three)),
            strict=True,
        )
    )
    found = sensitivities(formula, values, "mm")
    step = Fraction(1, 10**9)
    for name, value in values.items():
        moved = {**values, name: quantity_of(value.value + step)}
        slope = (exact(formula, moved, "mm") - found.value) / step
        assert abs(slope - found.slopes[name]) <= Fraction(1, 10**3) * (
            1 + abs(found.slopes[name])
        )


def quantity_of(value: Fraction) -> Quantity:
    return Quantity("", value, "mm")


@given(LENGTHS, LENGTHS)
def test_the_unit_typed_does_not_change_the_result(
    one: Fraction, other: Fraction
) -> None:
    formula = read_formula("max(a.x, b.x) - abs(a.x - b.x) / 3")
    millimetres = {"a.x": quantity_of(one), "b.x": quantity_of(other)}
    inches = {
        name: Quantity("", value / Fraction(254, 10), "in")
        for name, value in (("a.x", one), ("b.x", other))
    }
    assert exact(formula, millimetres, "mm") == exact(formula, inches, "mm")


def test_samples_agree_with_the_exact_value() -> None:
    formula = read_formula("max(a.x - b.x, 1 mm) × min(2, 3) / 0.5 + abs(b.x)")
    arrays = {"a.x": np.array([5.0, 1.0, 9.5]), "b.x": np.array([2.0, 3.0, -0.25])}
    found = sampled(formula, arrays, {"a.x": "mm", "b.x": "mm"}, "mm")
    for place in range(3):
        values = {
            name: quantity(Fraction(float(array[place])), "mm")
            for name, array in arrays.items()
        }
        assert found[place] == pytest.approx(float(exact(formula, values, "mm")))


def test_a_zero_among_the_samples_is_refused() -> None:
    formula = read_formula("1 mm × 1 mm / a.x")
    with pytest.raises(BadInput, match="divides by zero"):
        sampled(formula, {"a.x": np.array([1.0, 0.0])}, {"a.x": "mm"}, "mm")


def test_a_name_has_one_value_and_a_result_the_digits_it_has() -> None:
    twice = {"formula": "a.b", "values": ("a.b = 1 mm", "a.b = 2 mm")}
    with pytest.raises(BadInput, match=r"a\.b is given twice"):
        work_out("formula", twice)
    typed = {"formula": "a.b / 4", "values": ("a.b = 178.3 mm",)}
    assert work_out("formula", typed).result("value").shown == "44.575 mm"
