"""A wanted size is of the dimension it is told of, and of no other one of the line."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Deviation
from tests.plain.judge import of_parts
from tests.plain.records_of import drafted, known, world

WORDS = of_parts("lid", "mask")


@pytest.mark.parametrize(
    ("line", "off"),
    [
        (
            "lid 23.9 wide, drawing 24, and its height came out 9.15",
            ("width", "23.9 mm", "24 mm"),
        ),
        (
            "lid hole 3.2, should be 3.4, slot 3.5",
            ("hole", "3.2 mm", "3.4 mm"),
        ),
        (
            "lid height 9.15, width 23.9, drawing 24",
            ("width", "23.9 mm", "24 mm"),
        ),
    ],
)
def test_the_dimension_told_right_before_is_out(
    line: str, off: tuple[str, str, str]
) -> None:
    records = drafted(understand(line, WORDS), world(known(WORDS)))
    [found] = [one for one in records if isinstance(one, Deviation)]
    assert found.characteristic is not None
    assert (found.characteristic.name, str(found.found), str(found.wanted)) == off
    drawn = {
        one.title: str(one.nominal)
        for one in records
        if isinstance(one, Characteristic) and one.nominal is not None
    }
    assert drawn == {off[0]: off[2]}


def test_it_is_shown_with_the_size_it_is_of() -> None:
    line = understand("lid 23.9 wide, drawing 24, and its height came out 9.15", WORDS)
    assert "width 23.9 mm, wanted 24 mm · height 9.15 mm" in in_one_line(line)
