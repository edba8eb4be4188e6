"""Behind a value: between which points, in what state and by what it was read.

The lines are invented.
"""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.plain.words.sentence import read_sentence
from tests.plain.judge import PROJECT


def taken(says: str) -> Understanding:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.READING)
    return line


def rows(line: Understanding) -> list[tuple[str, str]]:
    """Give each value with its place."""
    return [(one.value.text, one.place) for one in line.facts.readings]


@pytest.mark.parametrize(
    ("says", "found"),
    [
        ("bed 412.5 between the shoulders", [("412.5 mm", "between the shoulders")]),
        ("lid 3.15 over the lacquer", [("3.15 mm", "over the lacquer")]),
        ("crossbar 181.2 from peg to peg", [("181.2 mm", "from peg to peg")]),
        (
            "bed 240.3 from the hinge to the front edge",
            [("240.3 mm", "from the hinge to the front edge")],
        ),
        ("collar 6.5 deep in its pocket", [("6.5 mm", "pocket")]),
        (
            "collar 41.02 one way and 41.11 the other",
            [("41.02 mm", "one way"), ("41.11 mm", "the other")],
        ),
        (
            "bracket 39.7 at one end, 40.1 at the other",
            [("39.7 mm", "one end"), ("40.1 mm", "the other")],
        ),
        (
            "diffuser 3.92 at one edge, 4.05 at the other",
            [("3.92 mm", "one edge"), ("4.05 mm", "the other")],
        ),
        (
            "collar bore 31.72 and 31.80 at right angles",
            [("31.72 mm", ""), ("31.80 mm", "right angles")],
        ),
        (
            "cable 0.4 ohm end to end, 1.1 ohm with the plug",
            [("0.4 ohm", "end to end"), ("1.1 ohm", "")],
        ),
        (
            "gap over the drawer 1.9 left, 2.3 right",
            [("1.9 mm", "left"), ("2.3 mm", "right")],
        ),
    ],
)
def test_where_a_value_was_read_is_its_place(
    says: str, found: list[tuple[str, str]]
) -> None:
    assert rows(taken(says)) == found


@pytest.mark.parametrize(
    ("says", "instrument"),
    [
        ("lid 3.1 by the feeler gauge", "feeler gauge"),
        ("oven reads 204 C on the probe", "probe"),
        ("lamp 61 C by the infrared thermometer", "infrared thermometer"),
    ],
)
def test_what_a_value_was_read_by_is_the_instrument(says: str, instrument: str) -> None:
    assert taken(says).facts.instrument == instrument


@pytest.mark.parametrize(
    "says",
    [
        "bed 1.4 over the nominal", "lid 0.3 over the limit", "lamp 41 C by the window",
        "bed 240.2 between the lid and the base", "moisture 9.5 % in the oak",
    ],
)  # fmt: skip
def test_what_it_is_held_against_or_stands_by_is_no_place(says: str) -> None:
    line = understand(says, PROJECT)
    assert all(not one.place for one in line.facts.readings)
    assert not line.facts.instrument


@pytest.mark.parametrize(
    ("says", "part", "what"),
    [
        ("no figure for the lid flatness", "lid", "flatness"),
        ("no value for the gate depth", "gate", "depth"),
        ("never took the base width", "base", "width"),
        ("crossbar still has no length on record", "crossbar", "length"),
        ("no reading for the plinth height", "plinth", "height"),
    ],
)
def test_a_size_that_was_not_measured_is_told_in_other_words(
    says: str, part: str, what: str
) -> None:
    facts = taken(says).facts
    assert (facts.part, facts.what) == (part, what)
    assert facts.absent is not None


@pytest.mark.parametrize(
    "says",
    ["never took the lid off", "no value for money in the lid", "no lid on record"],
)
def test_what_is_no_size_is_not_called_unmeasured(says: str) -> None:
    assert understand(says, PROJECT).facts.absent is None


@pytest.mark.parametrize(
    ("says", "part", "value", "room", "hours"),
    [
        ("lamp warmed to 47 C after 3 h, room at 16", "lamp", "47 C", "16 °C", "3 h"),
        ("collar heated up to 58 C in 2 h, room 21", "collar", "58 C", "21 °C", "2 h"),
        ("gate 2 at 47 C after 3 h, room 21", "gate", "47 C", "21 °C", "3 h"),
        (
            "lamp on for 4 h, bracket at 39 C, room 23",
            "bracket", "39 C", "23 °C", "4 h",
        ),
    ],
)  # fmt: skip
def test_warmth_is_told_with_how_long_it_took(
    says: str, part: str, value: str, room: str, hours: str
) -> None:
    facts = taken(says).facts
    assert facts.part == part
    assert [one.value.text for one in facts.readings] == [value]
    assert facts.room is not None
    assert facts.room.text == room
    assert facts.hours is not None
    assert facts.hours.text == hours


@pytest.mark.parametrize(
    ("says", "unit"),
    [
        ("crossbar tapers 3 deg", "°"), ("lid has 4 deg of play", "°"),
        ("lamp 61 deg after 2 h", "°C"),
    ],
)  # fmt: skip
def test_degrees_of_a_taper_or_of_play_are_no_heat(says: str, unit: str) -> None:
    assert [one.value.unit for one in taken(says).facts.readings] == [unit]


def test_warming_a_part_up_is_still_work() -> None:
    line = understand("warmed the lid to 60 C and bent it", PROJECT)
    assert line.kind is Kind.STEP


def test_where_a_size_is_off_may_be_told_in_two_words() -> None:
    facts = taken("crossbar 0.12 too fat at the chuck end").facts
    assert (facts.off_sense, facts.place) == ("too fat", "chuck end")


@pytest.mark.parametrize(
    ("says", "what", "states"),
    [
        ("lid weighs 410 g w/ the screws in", "weight", ["with the screws in"]),
        ("lamp 61 C w/o the fan", "temperature", ["without the fan"]),
        ("cable 0.4 ohm w/ the plug on", "resistance", ["with the plug on"]),
        ("got 179.1 for crossbar length w/ the caliper", "length", [""]),
        ("lid w 60.2", "width", [""]),
    ],
)
def test_with_and_without_may_be_shortened(
    says: str, what: str, states: list[str]
) -> None:
    facts = taken(says).facts
    assert facts.what == what
    assert [one.state for one in facts.readings] == states


def test_what_is_so_wide_and_high_is_not_shortened() -> None:
    words = read_sentence("aperture w/h 36.2 / 24.1", PROJECT).words
    assert "with" not in {one.low for one in words}
