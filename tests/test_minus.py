"""A minus is shown as one; a hyphen is what is typed, stored and given to programs."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.publish.pages import inline
from logbook.quantity import parse_quantity
from logbook.records.written.shown_signs import one_line
from logbook.screens.ruled.look import prose, sentence
from logbook.units import minus_signs


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("-0.82", "−0.82"),
        ("-126.28 mm to -0.32 mm", "−126.28 mm to −0.32 mm"),
        ("off by (-3/16 in)", "off by (−3/16 in)"),
        ("-5 °C", "−5 °C"),
        ("-1,234.5 mm", "−1,234.5 mm"),
        ("gap: -0.1; wide", "gap: −0.1; wide"),
        ("crossbar-1 2024-03-07 M4-8", "crossbar-1 2024-03-07 M4-8"),
        ("step 3-4, 10 -20x", "step 3-4, 10 -20x"),
        ("logbook gap --limits -n 2", "logbook gap --limits -n 2"),
        ("drawings/-1.dxf", "drawings/-1.dxf"),
        ("- 5 screws", "- 5 screws"),
    ],
)
def test_only_what_is_below_nothing_gets_a_minus(typed: str, shown: str) -> None:
    assert minus_signs(typed) == shown
    assert one_line(typed) == typed
    assert prose(typed).plain == sentence("$x", x=typed).plain == shown


@given(st.text())
def test_nothing_else_of_a_text_changes(text: str) -> None:
    assert minus_signs(text).replace("−", "-") == text.replace("−", "-")
    assert minus_signs(minus_signs(text)) == minus_signs(text)


@given(st.decimals(-1000, 1000, places=2))
def test_a_minus_is_read_as_the_hyphen_is(value: object) -> None:
    said = f"{value} mm"
    assert parse_quantity(minus_signs(said)) == parse_quantity(said)


def test_pages_have_it_in_their_words() -> None:
    assert inline("reads -0.82 mm") == "reads −0.82 mm"
