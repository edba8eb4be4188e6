"""Washers under a part are told of that part, wherever they lie."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from tests.plain.fresh import DEMO


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("nylon washers under the collar from now on", "collar"),
        ("washers under the screws of the bed from now on", "bed"),
        ("washers on the diffuser from now on", "diffuser"),
        ("nylon washers from now on", "washer"),
    ],
)
def test_what_lies_under_a_part_is_told_of_it(says: str, part: str) -> None:
    assert understand(says, DEMO).facts.part == part


def test_where_a_part_only_lay_is_not_what_a_line_is_of() -> None:
    line = understand("gate slid behind the base and cracked", DEMO)
    assert line.facts.part == "gate"
