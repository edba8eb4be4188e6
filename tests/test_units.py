"""Exact factors: 25.4 mm (BIPM SI Brochure), lbf and lb (NIST SP 811 app. B)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import BadInput
from logbook.units import UNITS, convert, find_unit

PAIRS = [
    (a, b) for a in UNITS for b in UNITS if UNITS[a].dimension == UNITS[b].dimension
]


@given(st.sampled_from(PAIRS), st.fractions())
def test_there_and_back_is_exact(pair: tuple[str, str], value: Fraction) -> None:
    here, there = pair
    assert convert(convert(value, here, there), there, here) == value


@pytest.mark.parametrize(
    ("value", "unit", "target", "found"),
    [
        ("1", "in", "mm", "25.4"), ("1", "lb", "g", "453.59237"),
        ("1", "lbf", "N", "4.4482216152605"), ("212", "°F", "°C", "100"),
        ("-40", "°C", "°F", "-40"), ("0", "K", "°C", "-273.15"),
    ],
)  # fmt: skip
def test_published_factors(value: str, unit: str, target: str, found: str) -> None:
    assert convert(Fraction(value), unit, target) == Fraction(found)


@pytest.mark.parametrize(
    ("value", "word", "target", "found"),
    [
        ("180", "mV", "V", "0.18"), ("2.3", "kV", "V", "2300"),
        ("18", "mA", "A", "0.018"), ("250", "µA", "mA", "0.25"),
        ("40", "mΩ", "Ω", "0.04"),
        ("1.5", "kW", "W", "1500"), ("20", "kHz", "Hz", "20000"),
    ],
)  # fmt: skip
def test_si_prefixes(value: str, word: str, target: str, found: str) -> None:
    # Prefixes: SI Brochure, 9th edition, table 7 (from memory).
    assert convert(Fraction(value), find_unit(word).symbol, target) == Fraction(found)


@pytest.mark.parametrize(
    ("word", "symbol"), [("dBA", "dB"), ("lux", "lx"), ("mohm", "mΩ"), ("Mohm", "MΩ")]
)
def test_a_prefix_is_what_its_letter_says(word: str, symbol: str) -> None:
    assert find_unit(word).symbol == symbol


def test_different_things_are_not_converted() -> None:
    with pytest.raises(BadInput, match="accepted: a time"):
        convert(Fraction(1), "mm", "s")


@pytest.mark.parametrize(("word", "symbol"), [("Nm", "N·m"), ('"', "in"), ("'", "ft")])
def test_spellings(word: str, symbol: str) -> None:
    assert find_unit(word).symbol == symbol
