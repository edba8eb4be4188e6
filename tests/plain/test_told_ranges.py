"""A smallest and a largest value were measured; a change is told with a verb."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

PARTS = "base crossbar bed lid lamp cable gate collar hinge drum"
WORDS = of_parts(*PARTS.split())


@pytest.mark.parametrize(
    ("says", "low", "high"),
    [
        ("kerf in 3 mm ply 0.21 to 0.26", "0.21 mm", "0.26 mm"),
        ("ripple on the lamp 40 to 60 mV", "40 mV", "60 mV"),
        ("drum runout 0.03 to 0.11", "0.03 mm", "0.11 mm"),
        ("bed moisture 9 to 11 %", "9 %", "11 %"),
        ("base opening 178.60 to 178.68", "178.60 mm", "178.68 mm"),
        ("hinge screws measured 0.38 to 0.44 N·m", "0.38 N·m", "0.44 N·m"),
        ("gate slots vary between 4.4 and 4.6", "4.4 mm", "4.6 mm"),
        ("collar bore ranges 20.1 to 20.3", "20.1 mm", "20.3 mm"),
        ("lamp face between 55 and 57 C", "55 °C", "57 C"),
        ("bed thickness 18.0 to 18.4", "18.0 mm", "18.4 mm"),
    ],
)
def test_both_ends_of_a_range_were_measured(says: str, low: str, high: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN)
    told = [(one.place, str(one.value)) for one in line.facts.readings]
    assert told == [("smallest", low), ("largest", high)]


@pytest.mark.parametrize(
    "says",
    [
        "crossbar length 179.7 to 178.3",
        "gate slot 4.4 to 4.6",
        "gate wall thickness 1.2 to 1.6",
        "rev B of the gate: slot 4.4 to 4.6 mm",
        "drilled out the gate holes 3.2 to 3.4 mm",
        "changed the gate slot from 4.4 to 4.6",
        "from now on 0.4 to 0.5 N·m on the lid screws",
    ],
)
def test_what_may_be_a_change_is_not_taken_as_measured(says: str) -> None:
    line = understand(says, WORDS)
    assert line.kind is not Kind.READING or line.verdict is not Verdict.TAKEN
    assert not any(one.place == "smallest" for one in line.facts.readings) or (
        line.verdict is not Verdict.TAKEN
    )


def test_a_wait_of_so_many_hours_is_no_range_of_sizes() -> None:
    line = understand("wait 2 to 3 h before the lid goes on", WORDS)
    assert line.verdict is not Verdict.TAKEN
