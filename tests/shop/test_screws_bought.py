"""Screws, drills and series as bought: names, pitches, lengths."""

from __future__ import annotations

import pytest

from logbook.shop.fastening.drills import drill, tapping, thread_percent
from logbook.shop.fastening.screws import (
    lengths,
    read_screw,
)
from logbook.shop.tables import table


def test_pitch_table_agrees_with_the_tapping_table() -> None:
    for row in table("holes", "tap_metric").rows:
        size = row.text("size")
        pitches = table("fasteners", "pitch")
        assert pitches.named(size).number("pitch") == row.number("pitch")
        # From memory: tapping drills leave 65 to 85 % of a full thread.
        assert 65 < tapping(size).percent < 88


def test_drills_grow_from_number_sixty_to_z() -> None:
    sizes = [drill(f"#{number}") for number in range(60, 0, -1)]
    letters = [drill(chr(65 + place)) for place in range(26)]
    assert sizes == sorted(sizes)
    assert letters == sorted(letters)
    assert sizes[-1] < letters[0]
    assert drill("17/64") == 17 / 64


def test_a_fine_pitch_is_drilled_by_the_rule() -> None:
    found = tapping("M8x1")
    assert found.drill == 7
    assert found.percent == pytest.approx(thread_percent(8, 1, 7))


def test_screws_are_read_with_any_cross() -> None:
    for text in ("M4x16", "m4 X 16", "M4×16", "M4*16 mm", "M4 × 1.6 cm"):
        assert str(read_screw(text)) == "M4×16"


def test_series_rise_and_hold_no_rare_lengths() -> None:
    for series in table("fasteners", "length_series").names():
        assert lengths(series) == sorted(set(lengths(series)))
        assert not {18.0, 22.0} & set(lengths(series))
