"""Words that tell a size say what its reading says now, and nothing else changes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.quantity import Quantity, parse_quantity
from logbook.records.states.read_now import put_right


def q(text: str) -> Quantity:
    found = parse_quantity(text, "mm")
    assert isinstance(found, Quantity)
    return found


@pytest.mark.parametrize(
    ("words", "value", "aside", "told"),
    [
        ("mask aperture 36.24", "36.26 mm", ["36.0 mm"], "mask aperture 36.26"),
        ("opening 178,6 mm, should be 180", "178.8 mm", ["180 mm"],
         "opening 178.8 mm, should be 180"),
        ("plate came 1/4 in", "3/8 in", ["6 mm"], "plate came 3/8 in"),
        ("leg is 3 13/32 in", "3 1/2 in", [], "leg is 3 1/2 in"),
        ("bar 178 mm long", "179 mm", [], "bar 179 mm long"),
    ],
)  # fmt: skip
def test_the_one_number_that_is_no_value_any_more_is_put_right(
    words: str, value: str, aside: list[str], told: str
) -> None:
    assert put_right(words, [q(value)], [q(one) for one in aside]) == told


@pytest.mark.parametrize(
    ("words", "values"),
    [
        ("mask aperture one kerf large", ["36.26 mm"]),
        ("sawed at 178.45, filed to 178.3", ["178.3 mm"]),
        ("opening 178.60 178.65 .62 .68", ["178.6 mm", "178.65 mm", "178.62 mm"]),
        ("M4x20 in 3 holes, 6 wide", ["8.5 mm"]),
        ("either 8.1 or 8.2", ["8.5 mm"]),
    ],
)
def test_words_in_which_no_one_number_can_be_it_stay(
    words: str, values: list[str]
) -> None:
    assert put_right(words, [q(one) for one in values]) == words


sizes = st.decimals("0.1", 999, places=2).map(lambda one: q(f"{one} mm"))


@given(read=st.lists(sizes, min_size=1, max_size=4))
def test_words_that_tell_what_was_read_stay_as_typed(read: list[Quantity]) -> None:
    words = "opening " + " ".join(str(one) for one in read)
    assert put_right(words, read) == words


@given(old=sizes, new=sizes)
def test_a_corrected_value_is_told_and_the_old_one_not(
    old: Quantity, new: Quantity
) -> None:
    told = put_right(f"aperture {old} at the left", [new])
    assert told == f"aperture {new} at the left" or old.value == new.value
