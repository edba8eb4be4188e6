"""Whether two lines tell of the same trouble; all of them are invented."""

from __future__ import annotations

import pytest

from logbook.records.together.likeness import same_trouble

NAMES = ("gate", "lid", "cable", "diffuser", "lamp", "M3 countersunk screw", "crossbar")


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("gate sagged beside the lamp", "the gate sags again"),
        ("gate sagged beside the lamp", "PETG gate printed flat, sagged at the bridge"),
        ("diffuser cracked at a corner screw", "diffuser cracked again"),
        ("diffuser cracked at a corner screw", "cracks in the diffuser"),
        ("crossbar too short", "second crossbar is too short as well"),
        ("lid splits", "the lid split while riveting"),
    ],
)
def test_the_same_happened_again(one: str, other: str) -> None:
    assert same_trouble(one, other, NAMES)
    assert same_trouble(other, one, NAMES)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("gate sagged beside the lamp", "bridge strands hung loose"),
        ("lid riveted on with the cable still outside", "lid cracked at the notch"),
        ("diffuser cracked at a corner screw", "corner screw of the diffuser stripped"),
        ("crossbar too short", "crossbar too long"),
        ("crossbar cannot be made to its length", "crossbar cannot be put in"),
        ("gate sagged beside the lamp", "gate scratched the film beside the lamp"),
        ("gate-1 seat 58.1 mm should be 58.4 mm", "lamp falls out of the 59.0 seat"),
    ],
)  # fmt: skip
def test_something_else_happened(one: str, other: str) -> None:
    assert not same_trouble(one, other, NAMES)
    assert not same_trouble(other, one, NAMES)
