"""Sizes told from the smallest to the largest, and sides that are no size."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "what", "sizes"),
    [
        ("bed slots run from 4.4 to 4.6 wide", "slots", ["4.4 mm", "4.6 mm"]),
        ("slots run from 4.4 to 4.6 wide", "slots", ["4.4 mm", "4.6 mm"]),
        ("slots 4.4 to 4.6 wide", "slots", ["4.4 mm", "4.6 mm"]),
        ("bed 18.1 to 18.4 thick", "thickness", ["18.1 mm", "18.4 mm"]),
        ("bed walls vary from 2.1 to 2.3 thick", "thickness", ["2.1 mm", "2.3 mm"]),
    ],
)
def test_from_the_smallest_to_the_largest_are_two_readings_of_one_size(
    says: str, what: str, sizes: list[str]
) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN)
    assert [str(one.value) for one in line.facts.readings] == sizes
    assert {one.what for one in line.facts.readings} == {what}


def test_slots_opened_from_one_width_to_another_are_asked_about() -> None:
    line = understand("opened the slots from 4.4 to 4.6 wide", PROJECT)
    assert line.verdict is Verdict.ASKED


def test_the_sides_that_are_so_thick_are_where_it_was_measured() -> None:
    line = understand("carcass sides 18.4 thick, bought as 18 mm plywood", PROJECT)
    [one] = line.facts.readings
    assert line.facts.part == "carcass"
    assert (str(one.value), one.what, one.place) == ("18.4 mm", "thickness", "sides")
