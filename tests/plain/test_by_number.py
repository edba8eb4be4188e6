"""What is told by its number has no size of it."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from tests.plain.judge import of_parts

WORDS = of_parts("cable", "base", "lamp", "lid")


@pytest.mark.parametrize(
    "says",
    [
        "pins 4 and 5 were swapped, resoldered them",
        "cable pins 2 and 3 were swapped, crimped them anew",
        "swapped terminals 1 and 2 of the lamp",
        "soldered pins 7 and 8 of the cable again",
        "contacts 3 & 4 of the cable were bridged, cut the bridge",
        "leads 1 and 2 of the lamp crossed over, swapped them back",
    ],
)
def test_two_told_by_their_numbers_are_no_millimetres(says: str) -> None:
    assert understand(says, WORDS).facts.readings == ()


@pytest.mark.parametrize(
    ("says", "count"),
    [
        ("lid holes 4.1 and 4.2", 2),
        ("base pins 4 mm and 5 mm long", 2),
        ("cut the cable to 330", 1),
    ],
)
def test_what_has_a_unit_or_is_no_row_of_numbers_is_a_size(
    says: str, count: int
) -> None:
    assert len(understand(says, WORDS).facts.readings) == count
