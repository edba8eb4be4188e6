"""A unit is read as typed, and one that nobody knows never becomes the project's."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

PARTS = "base crossbar bed lid lamp cable gate collar hinge drum"
WORDS = of_parts(*PARTS.split())


@pytest.mark.parametrize(
    ("says", "values"),
    [
        ("hinge screw torque 30 cNm should be 25", ["30 cNm", "25 N·cm"]),
        ("drum torque 310 mNm", ["310 mNm"]),
        ("bed weight 97.4 mg should be 99.8", ["97.4 mg", "99.8 mg"]),
        ("collar volume 20 ml should be 25", ["20 ml", "25 ml"]),
        ("drum oil volume 0.4 litres", ["0.4 litres"]),
        ("bed slope 0.3 mm/m", ["0.3 mm/m"]),
        ("hinge pressure 2.1 bar should be 2", ["2.1 bar", "2 bar"]),
        ("lamp ripple 80 mV should be 50", ["80 mV", "50 mV"]),
    ],
)
def test_a_unit_is_read_as_typed(says: str, values: list[str]) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN)
    read = [str(one.value) for one in line.facts.readings]
    assert [*read, *(str(one) for one in line.facts.wanted)] == values


@pytest.mark.parametrize(
    "says",
    [
        "crossbar 80.2 steps/mm should be 80",
        "lid density 1.1 g/cm3 should be 1.24",
        "drum feed 12 counts/mm",
        "gate spring 1.2 N/mm",
        "collar 40 l/min through it",
    ],
)
def test_a_unit_nobody_knows_is_no_length(says: str) -> None:
    line = understand(says, WORDS)
    lengths = {one.value.dimension for one in line.facts.readings}
    assert "length" not in lengths
    assert line.verdict is not Verdict.TAKEN or not line.facts.readings


@pytest.mark.parametrize(
    ("says", "value"),
    [
        ("lid 3/4 in wide", "3/4 in"),
        ("bar 2.1 mm thick", "2.1 mm"),
        ("base opening 178.6 l 178.7 r", "178.6 mm"),
    ],
)
def test_a_length_stays_one(says: str, value: str) -> None:
    line = understand(says, WORDS)
    assert str(line.facts.readings[0].value) == value


@pytest.mark.parametrize(
    ("says", "unit", "read"),
    [
        ("drilled the holes 9 in from the edge", "mm", "mm"),
        ("drilled the holes 9 in from the edge", "in", "in"),
        ("drilled the holes 3/8 in from the edge", "mm", "in"),
    ],
)
def test_so_far_in_is_inches_only_where_the_design_is_in_inches(
    says: str, unit: str, read: str
) -> None:
    words = replace(of_parts("hinge"), unit=unit)
    [size] = understand(says, words).facts.readings
    assert size.value.unit == read
