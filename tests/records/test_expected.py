"""What cannot be a value of a size is refused; what looks like a slip is doubted."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import BadInput
from logbook.quantity import Absent, Quantity, parse_quantity, quantity
from logbook.records.sizes.expected import Expected, misfit, must_suit
from logbook.records.sizes.slips import NO_WORK, slip_of


def q(text: str) -> Quantity:
    return parse_quantity(text, "mm")


def drawn(size: str, low: str = "", high: str = "") -> Expected:
    limits = (q(low) if low else None, q(high) if high else None)
    return Expected("opening", q(size), lower=limits[0], upper=limits[1])


OPENING = drawn("180.0", "178.8", "181.2")
"""Folded 1.4 mm narrow it reads 178.6: off its drawing, and no slip."""


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("1785.2", "178.52 mm"),
        ("17.86", "178.6 mm"),
        ("1.785", "178.5 mm"),
        ("17860", "178.60 mm"),
        ("78.55", "178.55 mm"),
        ("7.031", "7.031 in"),
        ("17.86 cm", ""),
        ("178.6", ""),
        ("176.43", ""),
        ("99.6", ""),
        ("240", ""),
        ("90", ""),
        ("360", ""),
    ],
)
def test_a_slip_is_known_by_what_it_leads_to(typed: str, meant: str) -> None:
    slip = slip_of(q(typed), OPENING)
    assert (str(slip.meant) if slip else "") == meant


def test_millimetres_typed_where_inches_are_meant() -> None:
    slip = slip_of(q("178.6 in"), drawn("7.03 in"))
    assert slip is not None
    assert str(slip.meant) == "178.6 mm"
    assert "in millimetres" in slip.question


def test_the_question_says_what_it_was_held_against() -> None:
    slip = slip_of(q("1785.2"), OPENING)
    assert slip is not None
    said = "“1785.2 mm” is ten times what is drawn, 180.0 mm: 178.52 mm?"
    assert slip.question == said


sizes = st.integers(1, 10**6).map(lambda n: Fraction(n, 100))
shares = st.integers(-999, 999).map(lambda n: Fraction(n, 1000))


@given(sizes, st.integers(1, 5000), shares)
def test_never_a_cry_at_what_work_can_be_off(
    size: Fraction, spread: int, share: Fraction
) -> None:
    half = Fraction(spread, 1000)
    low, high = quantity(size - half, "mm"), quantity(size + half, "mm")
    held = Expected("opening", quantity(size, "mm"), lower=low, upper=high)
    by_limits = quantity(size + share * NO_WORK * 2 * half, "mm")
    by_share = quantity(size + share * size / 4, "mm")
    assert slip_of(by_limits, held) is None
    assert slip_of(by_share, held) is None
    assert slip_of(by_share, Expected("opening", quantity(size, "mm"))) is None


@given(
    st.integers(1000, 10**6).map(lambda n: Fraction(n, 100)),
    st.integers(1, 20),
    st.integers(-30, 30),
    st.sampled_from([-3, -2, -1, 1, 2, 3]),
)
def test_a_mark_moved_is_seen_and_put_back_exactly(
    size: Fraction, spread: int, off: int, moved: int
) -> None:
    half = Fraction(spread, 100)
    low, high = quantity(size - half, "mm"), quantity(size + half, "mm")
    held = Expected("opening", quantity(size, "mm"), lower=low, upper=high)
    read = quantity(size * (1 + Fraction(off, 1000)), "mm")
    slip = slip_of(quantity(read.value * Fraction(10) ** moved, "mm"), held)
    assert slip is not None
    assert slip.meant is not None
    assert slip.meant.value == read.value


@given(sizes, sizes)
def test_what_is_meant_is_no_slip_itself(size: Fraction, typed: Fraction) -> None:
    held = Expected("opening", quantity(size, "mm"))
    slip = slip_of(quantity(typed, "mm"), held)
    assert slip is None or slip.meant is None or slip_of(slip.meant, held) is None


@pytest.mark.parametrize(
    ("typed", "asked"),
    [("52", True), ("89.9", True), ("361", True), ("90", False), ("360", False)],
)
def test_what_is_far_from_what_is_drawn_is_doubted_though_nothing_else_is_meant(
    typed: str,
    asked: bool,
) -> None:
    slip = slip_of(q(typed), OPENING)
    assert (slip is not None) == asked
    if slip is not None:
        said = f"“{typed} mm” is far from what is drawn, 180.0 mm: is it so?"
        assert (slip.meant, slip.question) == (None, said)


@pytest.mark.parametrize(
    ("typed", "held"),
    [
        ("9", drawn("4.0")),  # a hole put elsewhere on purpose
        ("0.9", drawn("0.3")),
        ("52", Expected("opening", q("180"), drawn=False)),
        ("52", drawn("180", "20", "340")),
        ("52 °C", drawn("180 °C")),
    ],
)
def test_what_may_be_so_is_not_doubted_for_being_far(
    typed: str, held: Expected
) -> None:
    assert slip_of(q(typed), held) is None


wide = st.builds(
    lambda tenths, unit: quantity(Fraction(tenths, 10), unit, Fraction(1, 10)),
    st.integers(-600, 5400),
    st.sampled_from(("mm", "cm", "in", "°C", "°")),
)
"""Values from below nothing to three times 180, of several kinds."""
expectations = st.builds(
    lambda size, is_drawn: Expected("opening", q(size), drawn=is_drawn),
    st.sampled_from(("180 mm", "0 mm", "-180 mm", "18 ga steel", "20 °C", "7.03 in")),
    st.booleans(),
)
absent_or_gauge = st.sampled_from((q("18 ga steel"), Absent.NOT_MEASURED))


@given(expectations, st.lists(wide | absent_or_gauge))
def test_what_is_near_at_a_glance_is_neither_a_misfit_nor_a_slip(
    expected: Expected, values: list[Quantity | Absent]
) -> None:
    sure = [expected.near([value]) for value in values]
    assert expected.near(values) is all(sure)
    for value, near in zip(values, sure, strict=True):
        if near:
            assert misfit(value, expected) is None
            assert slip_of(value, expected) is None


def test_a_reading_like_the_drawing_is_near_and_one_that_slipped_is_not() -> None:
    assert OPENING.near([q("178.6"), q("180.2"), q("135"), q("225")])
    for typed in ("1785.2", "17.86", "134.9", "225.1", "-178.6", "17.86 cm"):
        assert not OPENING.near([q("178.6"), q(typed)])
    assert not OPENING.near([Absent.NOT_MEASURED])


@pytest.mark.parametrize(
    ("typed", "held", "said"),
    [
        ("52 kg", drawn("58 °C"), "is a mass; opening is drawn 58 °C; accepted: a "),
        ("-3", drawn("240"), "is negative; opening is drawn 240 mm; accepted: a "),
        ("3 °", drawn("240"), "is an angle"),
        ("3 °C", Expected("face", q("240"), drawn=False), "was read 240 mm before"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(
    typed: str, held: Expected, said: str
) -> None:
    with pytest.raises(BadInput) as refused:
        must_suit(q(typed), held)
    assert said in str(refused.value)


@pytest.mark.parametrize(
    ("typed", "held"),
    [
        ("-5 °C", drawn("20 °C")),
        ("-1 °", drawn("90 °")),
        ("9.45 in", drawn("240")),
        ("-0.1", Expected("bow", q("0.2"), drawn=False)),
    ],
)
def test_what_can_be_is_not_refused(typed: str, held: Expected) -> None:
    must_suit(q(typed), held)


@pytest.mark.parametrize("typed", ["0", "0.00", "0 in"])
def test_nothing_at_all_is_asked_about_where_a_size_is_drawn(typed: str) -> None:
    slip = slip_of(q(typed), OPENING)
    assert slip is not None
    said = f"“{q(typed)}” is nothing at all beside what is drawn, 180.0 mm: is it so?"
    assert (slip.meant, slip.question) == (None, said)


@pytest.mark.parametrize(
    "held",
    [drawn("0"), drawn("0.1", "0", "0.3"), drawn("0 °"), drawn("22 °C"), drawn("5 V")],
    ids=["drawn so", "within its limits", "an angle", "warmth", "voltage"],
)
def test_nothing_is_taken_where_it_may_be_so(held: Expected) -> None:
    assert slip_of(quantity(Fraction(0), held.size.unit), held) is None
