"""What is amiss with a thing, told without a verb of failing."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts("tray", "handle", "rotor", "hood", "pump", "strap")


@pytest.mark.parametrize(
    "says",
    [
        "two of the handle screws have no grip",
        "the pump has no suction",
        "pump gets louder every day",
        "the strap got looser again",
        "rotor hits the hood",
        "the handle scrapes the wall of the tray",
        "there is play in the rotor again",
        "there's a leak in the pump",
        "nuts on the hood keep coming loose",
        "3 of 8 screws in the tray pulled through",
        "put the rotor on backwards",
        "glued the handle on upside down",
        "hood drags",
        "the hood is in the way of the handle",
    ],
)
def test_what_lacks_gets_worse_or_hits_another_failed(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.FAILURE, Verdict.TAKEN)


@pytest.mark.parametrize(
    "says",
    [
        "there is 0.2 play in the rotor",
        "the tray has no light in the drawing",
        "the handle has no grip tape yet",
        "if the pump gets louder, grease it",
        "rotor hits 3000 rpm",
        "no play in the rotor",
        "turned the tray upside down",
        "the tray came out of the mould clean and flat",
        "cut a drip groove under the hood",
        "no way to get the strap out any more",
    ],
)
def test_what_is_measured_meant_or_not_so_did_not(says: str) -> None:
    line = understand(says, WORDS)
    assert not (line.verdict is Verdict.TAKEN and line.kind is Kind.FAILURE)
