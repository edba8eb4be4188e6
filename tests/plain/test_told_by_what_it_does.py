"""At which value something happens is a value of it: the switch fires at 2.1 mm."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

PARTS = ("lamp", "hinge", "gate", "drum", "end switch", "supply")
WORDS = of_parts(*PARTS)


@pytest.mark.parametrize(
    ("says", "value", "wanted"),
    [
        ("end switch fires at 2.1 mm, should be 1.5", "2.1 mm", "1.5 mm"),
        ("end switch triggers at 1.9 mm, ought to be 1.5", "1.9 mm", "1.5 mm"),
        ("supply trips at 2.4 A should be 2.0", "2.4 A", "2.0 A"),
        ("hinge clicks at 40 N should be 25", "40 N", "25 N"),
        ("gate releases at 12 N, should be 9", "12 N", "9 N"),
        ("lamp cuts out at 71 C", "71 C", ""),
        ("the drum kicks in at 4.2 V", "4.2 V", ""),
    ],
)
def test_where_it_happens_is_measured(says: str, value: str, wanted: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN)
    assert [str(one.value) for one in line.facts.readings] == [value]
    assert [str(one) for one in line.facts.wanted] == ([wanted] if wanted else [])


@pytest.mark.parametrize(
    "says",
    ["lamp trips the fuse", "supply trips at night", "drum fires twice at the start"],
)
def test_that_it_happens_is_no_value(says: str) -> None:
    assert not understand(says, WORDS).facts.readings
