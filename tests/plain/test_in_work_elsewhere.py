"""What is in work at somebody else's, told by who makes it or where it is."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts("tray", "handle", "rotor", "hood", "pump", "strap")


@pytest.mark.parametrize(
    ("says", "part", "many"),
    [
        ("The joiner is making 3 trays, 45.00, ready on the 11th.", "tray", 3),
        ("The blacksmith is forging 2 handles, 55.00, done next week.", "handle", 2),
        ("print shop is printing 4 hoods, 27.50, ready tuesday", "hood", 4),
        ("2 rotors being balanced at the machine shop, 40.00, monday", "rotor", 2),
        ("orderd 5 straps, 41.50, here by monday", "strap", 5),
        ("hood is at the powder coater until thursday", "hood", None),
        ("the rotor is at the welder", "rotor", None),
        ("the handles are due on the 3rd", "handle", None),
    ],
)
def test_what_another_makes_or_has_is_ordered(
    says: str, part: str, many: int | None
) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.ORDER, Verdict.TAKEN)
    assert (line.facts.part, line.facts.quantity) == (part, many)
    assert line.facts.readings == ()


@pytest.mark.parametrize(
    "says",
    [
        "the rotor is at 58 C",
        "handle is at the back",
        "the joiner is cutting corners",
        "I am making 3 trays",
        "order number of the pump is on the box",
        "bent the handle back from 88 to 90",
    ],
)
def test_what_is_elsewhere_or_in_our_own_work_is_not(says: str) -> None:
    line = understand(says, WORDS)
    assert not (line.verdict is Verdict.TAKEN and line.kind is Kind.ORDER)
