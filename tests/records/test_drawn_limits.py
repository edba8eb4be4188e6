"""A size as a drawing gives it: what its noughts are, and what its limits are."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import BadInput
from logbook.records.sizes.limits import Drawn, parse_drawn


def read(text: str) -> tuple[Fraction | None, ...]:
    drawn: Drawn = parse_drawn(text, "mm")
    sizes = (drawn.nominal, drawn.lower, drawn.upper)
    return tuple(one.to("mm") if one else None for one in sizes)


@given(st.integers(min_value=0, max_value=100_000), st.sampled_from(["", " mm"]))
def test_a_whole_number_is_that_size_and_gives_no_limits(size: int, unit: str) -> None:
    assert read(f"{size}{unit}") == (Fraction(size), None, None)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("100 0/-0.2", "99.8", "100"),
        ("100 +0.2/0", "100", "100.2"),
        ("100 +0.2 0", "100", "100.2"),
        ("100 0 -0.2 mm", "99.8", "100"),
        ("100+0.2-0", "100", "100.2"),
        ("100 ±0.5", "99.5", "100.5"),
    ],
)
def test_a_nought_that_stands_by_itself_is_a_limit(
    text: str, low: str, high: str
) -> None:
    assert read(text) == (Fraction(100), Fraction(low), Fraction(high))


@pytest.mark.parametrize("text", ["100-0.2", "100 0/0.2"])
def test_what_gives_one_limit_only_is_no_other_size(text: str) -> None:
    with pytest.raises(BadInput):
        parse_drawn(text, "mm")
