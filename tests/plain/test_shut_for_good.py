"""What is said not to be undone was shut for good: nothing was taken apart."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

PARTS = "base crossbar bed lid lamp cable gate collar hinge drum"
WORDS = of_parts(*PARTS.split())


@pytest.mark.parametrize(
    "says",
    [
        "glued the hinge on, cannot be undone",
        "riveted the lid on, this cant be undone any more",
        "glued the collar into the base, can not be undone",
        "soldered the cable, that can't be undone",
        "welded the gate to the base, won't be undone",
        "glued the lid shut, it cannot be reopened",
    ],
)
def test_what_cannot_be_undone_closes(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.STEP, Verdict.TAKEN)
    assert line.facts.closes
    assert not line.facts.undone


@pytest.mark.parametrize(
    "says", ["lid undone again", "took the lid off again", "lid taken off again"]
)
def test_what_was_undone_was_taken_apart(says: str) -> None:
    line = understand(says, WORDS)
    assert line.facts.undone
    assert not line.facts.closes
