"""A bare figure beside the same size in another unit is in that unit."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Verdict
from tests.plain.judge import of_parts

WORDS = of_parts("base")


@pytest.mark.parametrize(
    ("says", "read"),
    [
        (
            "base opening left 7.062 in, right 7.065, front 7.061, back 7.066 in",
            ["7.062 in", "7.065 in", "7.061 in", "7.066 in"],
        ),
        ("base opening left 7.062, right 7.065 in", ["7.062 in", "7.065 in"]),
        ("base opening left 7.062 in, right 7.065", ["7.062 in", "7.065 in"]),
        # Far from it, or another size: in the project's own.
        ("base opening left 7.062 in, right 179.4", ["7.062 in", "179.4 mm"]),
        ("base opening 7.062 in, width 7.1", ["7.062 in", "7.1 mm"]),
        ("base opening left 178.6, right 178.65", ["178.6 mm", "178.65 mm"]),
        # Two units beside it: neither is surely its.
        (
            "base opening left 7.06 in, right 7.05 mm, front 7.07",
            ["7.06 in", "7.05 mm", "7.07 mm"],
        ),
    ],
)
def test_it_is_read_as_beside(says: str, read: list[str]) -> None:
    line = understand(says, WORDS)
    assert line.verdict is Verdict.TAKEN
    assert [one.value.text for one in line.facts.readings] == read
