"""What holds on something and is made as a part is the part that failed."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind
from tests.plain.judge import of_parts

WORDS = of_parts("pulley", "shaft", "clip", "rod", "lid", "base", "washer", "rivet")


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("the pulley slips on the shaft under load, glued it, it holds now", "pulley"),
        ("pulley slipped on the shaft", "pulley"),
        ("the clip slides off the rod", "clip"),
        ("clip cracked on the rod", "clip"),
        ("a rivet popped on the lid", "lid"),
        ("washer cracked on the base", "base"),
        ("the rivet pulled out of the base", "base"),
    ],
)
def test_the_part_that_failed_is_told_first_and_a_fastener_last(
    says: str, part: str
) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.facts.part) == (Kind.FAILURE, part)
