"""What a release froze of a size is read back as it was drawn."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.ids import Ref
from logbook.records.sizes.definition import Dimension, drawn_as_said, drawn_text

OPENING = Characteristic(
    id="0c0c0c0c", title="opening", part=Ref("base", "0p0p0p0p"), name="opening"
)
SIZES = st.decimals(min_value="0.01", max_value=2000, places=2).map(
    lambda number: parse_quantity(f"{number} mm")
)
LIMITS = st.one_of(st.none(), SIZES)


@given(SIZES, LIMITS, LIMITS)
def test_a_size_with_its_limits_comes_back_as_it_was(
    nominal: Quantity, lower: Quantity | None, upper: Quantity | None
) -> None:
    drawn = Dimension(OPENING, nominal, lower, upper)
    assert drawn_as_said(OPENING, drawn_text(drawn)) == drawn


def test_without_a_size_it_comes_back_too_and_other_words_are_none() -> None:
    for drawn in (
        Dimension(OPENING, None, None, None),
        Dimension(OPENING, None, None, None, to_suit=True),
    ):
        assert drawn_as_said(OPENING, drawn_text(drawn)) == drawn
    assert drawn_as_said(OPENING, "about as wide as the bar") is None
    assert drawn_as_said(OPENING, "wide (so to so), no limits drawn") is None
