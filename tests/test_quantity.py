"""Quantities as typed in a home shop.

Inch cases: 25.4 mm exactly (BIPM SI Brochure; NIST SP 811 B.8). Rounding: NIST
SP 811 B.7.1. Gauges are names only; their thicknesses are tested elsewhere.
"""

from __future__ import annotations

import re
import time
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.decimal_text import plain_number
from logbook.errors import BadInput, NeedsAnswer
from logbook.quantity import Absent, Metal, parse_quantity, parse_value
from logbook.units import UNITS
from tests.records.strategies import quantities

TYPED = (
    ("86.42", "86.42", "mm"), ("86,42", "86.42", "mm"), ('3 13/32"', "109/32", "in"),
    ("3-13/32 in", "109/32", "in"), ("3/16 in", "3/16", "in"), ("5 mm", "5", "mm"),
    ("58 °C", "58", "°C"), ("4.5 N·m", "9/2", "N·m"), ("1.234", "1.234", "mm"),
    ("−2 mm", "-2", "mm"), ("5\u00a0mm", "5", "mm"), ("５．５ mm", "5.5", "mm"),
    ("½ in", "1/2", "in"), ("30° 15'", "30.25", "°"), ("1.234,5 mm", "1234.5", "mm"),
    ("-1' 2\"", "-14", "in"), ("0,500", "0.5", "mm"),
)  # fmt: skip


@pytest.mark.parametrize(("text", "value", "unit"), TYPED)
def test_what_is_typed_is_read_exactly(text: str, value: str, unit: str) -> None:
    read = parse_quantity(text, "mm")
    assert (read.value, read.unit) == (Fraction(value), unit)


INCHES = (
    ('1/64"', "1/64", "0.396875"), ("5/32", "5/32", "3.96875"),
    ('3/8"', "3/8", "9.525"), ('1-3/16"', "19/16", "30.1625"),
    ('2 5/8"', "21/8", "66.675"), ("63/64", "63/64", "25.003125"),
    ("1' 2 1/2\"", "29/2", "368.3"), (".250", "1/4", "6.35"),
    ("3/4 in", "3/4", "19.05"), ("7/32", "7/32", "5.55625"), ("6'", "72", "1828.8"),
)  # fmt: skip


@pytest.mark.parametrize(("text", "inches", "mm"), INCHES)
def test_inches_are_exact_in_millimetres(text: str, inches: str, mm: str) -> None:
    read = parse_quantity(text, "in")
    assert read.to("in") == Fraction(inches)
    assert read.to("mm") == Fraction(mm)


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        ("6.9749515", 2, "6.97"), ("6.9749515", 4, "6.9750"),
        ("6.9749515", 6, "6.974952"), ("6.65", 1, "6.6"), ("6.35", 1, "6.4"),
        ("3.05", 1, "3.0"), ("0.285", 2, "0.28"), ("56.5", 0, "56"), ("-0.4", 0, "0"),
    ],
)  # fmt: skip
def test_ties_round_to_even(value: str, digits: int, text: str) -> None:
    assert plain_number(Fraction(value), digits) == text


@pytest.mark.parametrize(
    ("text", "choices"),
    [
        ("1,234", ("1.234", "1234")),
        ("1/4", ("1/4 in", "0.25 mm")),
        ("3 13/32", ("3 13/32 in", "3.40625 mm")),
    ],
)
def test_two_meanings_are_asked_about(text: str, choices: tuple[str, ...]) -> None:
    with pytest.raises(NeedsAnswer) as asked:
        parse_quantity(text, "mm")
    assert asked.value.choices == choices


def test_a_gauge_needs_its_metal() -> None:
    with pytest.raises(NeedsAnswer) as asked:
        parse_quantity("18 ga", "mm")
    read = [parse_quantity(choice) for choice in asked.value.choices]
    assert [one.metal for one in read] == list(Metal)
    with pytest.raises(BadInput):
        read[0].to("mm")


@pytest.mark.parametrize(
    "text", ["", "mm", "5 - 1/4 in", "3 45/32 in", "1/0 in", "5 ± 1 mm", "1.2.3", "5 q"]
)
def test_a_refusal_is_one_sentence_that_says_what_is_accepted(text: str) -> None:
    with pytest.raises(BadInput, match="accepted: ") as refused:
        parse_quantity(text, "mm")
    assert "\n" not in str(refused.value)


def test_a_megabyte_is_refused_at_once() -> None:
    begun = time.process_time()
    with pytest.raises(BadInput, match="characters"):
        parse_quantity("1" * 1_000_000, "mm")
    assert time.process_time() - begun < 0.05


def test_a_value_can_be_absent_on_purpose() -> None:
    assert parse_value("Not  measured") is Absent.NOT_MEASURED
    assert parse_value("untried") is Absent.UNTRIED


@given(quantities())
def test_text_gives_back_the_quantity_and_its_negative(q: object) -> None:
    again = parse_quantity(str(q))
    assert again == q
    other = -again
    assert -other == again
    assert parse_quantity(str(other)) == other


@given(
    st.from_regex(r"-?[0-9]{1,7}(\.[0-9]{1,9})?", fullmatch=True),
    st.sampled_from(sorted(UNITS)),
)
def test_a_plain_decimal_is_read_as_one_with_more_blanks(
    number: str, unit: str
) -> None:
    plain, spaced = (
        parse_quantity(f"{number} {unit}"),
        parse_quantity(f" {number}  {unit} "),
    )
    assert plain == spaced
    assert (plain.text, plain.metal) == (spaced.text, None)
    assert plain.value == Fraction(number)


@given(st.fractions(max_denominator=10**6))
def test_plain_numbers_lose_nothing(value: Fraction) -> None:
    assert Fraction(plain_number(value)) == value


@given(st.text(max_size=200) | st.text("0123456789.,/-+ '\"°gainm½", max_size=30))
def test_hostile_text_is_read_or_refused_in_one_line(text: str) -> None:
    said = ""
    try:
        read = parse_quantity(text, "mm")
    except BadInput as refused:
        said = str(refused)
    else:
        assert parse_quantity(str(read)) == read
    assert said.isprintable()


def test_a_hundred_thousand_sizes_hold_one_unit_and_one_step_between_them() -> None:
    one, other = parse_quantity("178.60 mm"), parse_quantity("9.25 mm")
    assert one.unit is other.unit
    assert one.step is other.step


@pytest.mark.parametrize(("typed", "behind"), [("12,", ","), ("12.", "."), ("5/", "/")])
def test_one_number_with_a_sign_behind_it_is_not_called_two(
    typed: str, behind: str
) -> None:
    with pytest.raises(BadInput, match=re.escape(f"ends in “{behind}”")):
        parse_quantity(typed, "mm")
