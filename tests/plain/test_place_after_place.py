"""The place of one value goes no further than the place of the next."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from tests.plain.judge import of_parts


@pytest.mark.parametrize(
    "says",
    [
        "foot wall at the heel 3.1, at the toe 2.85, middle 2.95",
        "lid bore at the left 12.9, at the right 12.95, centre 13.0",
        "lid width at the front 80.1, at the back 80.3, middle 80.2",
    ],
)
def test_the_last_of_three_is_at_its_own_place(says: str) -> None:
    last = understand(says, of_parts("foot", "lid")).facts.readings[-1]
    assert last.place in ("middle", "centre")
    assert last.state == ""
