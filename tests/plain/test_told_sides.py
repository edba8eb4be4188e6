"""Sizes of several sides, what begins with its measure, and a size not measured."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

PARTS = "base crossbar bed lid lamp cable gate collar hinge drum"
WORDS = of_parts(*PARTS.split())


@pytest.mark.parametrize(
    ("says", "sizes"),
    [
        ("lid 119.7 by 79.8, 3.9 thick",
         ["side 1 119.7 mm", "side 2 79.8 mm", "thickness 3.9 mm"]),
        ("bed 600 by 400 mm", ["side 1 600 mm", "side 2 400 mm"]),
        ("gate 31.8 x 12.1 x 3.0",
         ["side 1 31.8 mm", "side 2 12.1 mm", "side 3 3.0 mm"]),
        ("hinge 80 by 32 by 12",
         ["side 1 80 mm", "side 2 32 mm", "side 3 12 mm"]),
        ("collar 40.2 by 30.1 by 6.3",
         ["side 1 40.2 mm", "side 2 30.1 mm", "side 3 6.3 mm"]),
        ("lid 212.4 long, 148.9 wide, 1.2 thick",
         ["length 212.4 mm", "width 148.9 mm", "thickness 1.2 mm"]),
        ("shelf 600 by 250 by 18",
         ["side 1 600 mm", "side 2 250 mm", "side 3 18 mm"]),
    ],
)  # fmt: skip
def test_the_sides_of_a_thing_are_told_apart(says: str, sizes: list[str]) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN)
    assert [f"{one.what} {one.value}" for one in line.facts.readings] == sizes


@pytest.mark.parametrize(
    "says",
    ["lid out by 0.3 by the hinge", "gate 4 by 6 holes", "bed off by 12 by 14:00"],
)
def test_a_by_is_not_always_of_two_sides(says: str) -> None:
    line = understand(says, WORDS)
    assert not any("side" in one.what for one in line.facts.readings)


def test_too_long_by_so_much_is_still_asked_about() -> None:
    line = understand("crossbar came out 0.8 long", WORDS)
    assert line.question is not None
    assert "too long by so much" in line.question.question


@pytest.mark.parametrize(
    ("says", "value"),
    [
        ("torque on the four lid screws: 0.4 N·m, with fibre washers", "0.4 N·m"),
        ("torque on the hinge bolts 2.5 N·m, washers under the heads", "2.5 N·m"),
        ("temperature of the lid at the screws 51 C", "51 C"),
    ],
)
def test_what_begins_with_its_measure_was_measured(says: str, value: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN)
    assert [str(one.value) for one in line.facts.readings] == [value]


@pytest.mark.parametrize(
    "says",
    [
        "torqued the lid screws to 0.4 N·m",
        "tightened the hinge bolts, 2.5 N·m, washers on",
    ],
)
def test_screws_that_were_tightened_are_work(says: str) -> None:
    assert understand(says, WORDS).kind in (Kind.STEP, Kind.JOINT)


@pytest.mark.parametrize(
    ("says", "what"),
    [
        ("crossbar length not measured yet", "length"),
        ("weight of the lid not measured", "weight"),
        ("haven't measured the drum runout", "runout"),
    ],
)
def test_a_size_not_measured_is_shown_with_its_name(says: str, what: str) -> None:
    line = understand(says, WORDS)
    assert f"dimension {what}" in in_one_line(line)
    assert "only in words" not in in_one_line(line)
