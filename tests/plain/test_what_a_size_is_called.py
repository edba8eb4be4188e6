"""A size is called by its own words: no adverb, no number of a hole is its name."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT, of_parts


@pytest.mark.parametrize(
    ("says", "name"),
    [
        ("lid thickness anywhere between 2.9 and 3.2", "thickness"),
        ("mortise depth somewhere between 22 and 24", "mortise depth"),
        ("the seat height differs between 448 and 451", "seat height"),
        ("play in the hinge goes from 0.2 to 0.5", "play"),
        ("the gap is really 0.4", "gap"),
        ("wall thickness mostly 1.2", "wall thickness"),
        ("slot barely 4.1", "slot"),
        ("seam allowance usually 12.5", "seam allowance"),
    ],
)
def test_an_adverb_names_no_size(says: str, name: str) -> None:
    line = understand(says, PROJECT)
    assert line.kind is Kind.READING
    assert {one.what for one in line.facts.readings} == {name}


@pytest.mark.parametrize(
    ("says", "place", "value"),
    [
        ("distance between hole 8 and 11 is 40", "hole 8 and 11", "40 mm"),
        ("distance from hole 2 to hole 5 is 40", "hole 2 to hole 5", "40 mm"),
        ("spacing hole 1 to 2 is 40.2", "hole 1 to 2", "40.2 mm"),
        ("spacing between holes 3 and 4 is 12.7", "holes 3 and 4", "12.7 mm"),
        ("pitch between teeth 1 and 6 24.9", "teeth 1 and 6", "24.9 mm"),
        ("resistance between terminals 2 and 3 0.4 ohm", "terminals 2 and 3",
         "0.4 ohm"),
    ],
)  # fmt: skip
def test_numbered_places_are_where_it_was_read(
    says: str, place: str, value: str
) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN)
    assert [(one.place, str(one.value)) for one in line.facts.readings] == [
        (place, value)
    ]


@pytest.mark.parametrize(
    ("says", "values"),
    [
        ("gap between 8 and 11", 2),
        ("hole 8 and 11 deep", 1),
        ("slot 4.1 and 4.4", 2),
    ],
)
def test_numbers_that_number_nothing_stay_values(says: str, values: int) -> None:
    assert len(understand(says, PROJECT).facts.readings) == values


@pytest.mark.parametrize(
    ("says", "told"),
    [
        ("slot 4.4 wide, 12 deep", {"slot width": "4.4 mm", "slot depth": "12 mm"}),
        ("groove 3.1 wide 6 deep", {"groove width": "3.1 mm", "groove depth": "6 mm"}),
        (
            "mortise 10 wide, 40 long, 22 deep",
            {
                "mortise width": "10 mm",
                "mortise length": "40 mm",
                "mortise depth": "22 mm",
            },
        ),
        ("hem 20 deep, 2 thick", {"hem depth": "20 mm", "hem thickness": "2 mm"}),
        ("hole 5.1, 12 deep", {"hole": "5.1 mm", "hole depth": "12 mm"}),
        ("lid 240 wide, 3 thick", {"width": "240 mm", "thickness": "3 mm"}),
    ],
)
def test_the_sides_of_a_slot_are_no_two_places_of_one_size(
    says: str, told: dict[str, str]
) -> None:
    readings = understand(says, PROJECT).facts.readings
    assert {one.what: str(one.value) for one in readings} == told
    assert {one.place for one in readings} == {""}


@pytest.mark.parametrize(
    ("says", "name"),
    [
        ("flange 12.2 wide left, 12.4 wide right", "flange"),
        ("slots 4.4 wide, 4.5 wide", "slots"),
        ("slot 4.4 wide, should be 4.2", "slot"),
    ],
)
def test_one_side_at_several_places_keeps_its_name(says: str, name: str) -> None:
    readings = understand(says, PROJECT).facts.readings
    assert {one.what for one in readings} == {name}


def test_that_it_was_tried_and_lights_is_no_name_of_its_current() -> None:
    line = understand("tried the led strip, it lights, 0.82 A", of_parts("led strip"))
    assert [one.what for one in line.facts.readings] == ["current"]


@pytest.mark.parametrize(
    "says",
    ["sanded the bearing seat to 22.02", "filed the bearing seat",
     "bearing seat cracked", "bearing seat 22.02"],
)  # fmt: skip
def test_a_size_of_several_words_tells_its_part_though_other_parts_are_called_so(
    says: str,
) -> None:
    seats = {**PROJECT.characteristics, "bracket": ["bearing seat"]}
    line = understand(says, replace(PROJECT, characteristics=seats))
    assert line.verdict is Verdict.TAKEN
    assert (line.facts.part, line.facts.part_is_new) == ("bracket", False)
