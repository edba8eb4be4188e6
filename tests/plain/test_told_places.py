"""Where a value was read, told in words; what a thing is rated for is no value."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from tests.plain.judge import NOW

PARTS = "base crossbar bed lid lamp cable gate collar hinge drum"
WORDS = Vocabulary(
    now=NOW,
    parts=dict.fromkeys(PARTS.split(), ()),
    places=("front left", "back right"),
)


def taken(says: str) -> Understanding:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN), says
    return line


@pytest.mark.parametrize(
    ("says", "places"),
    [
        ("bed thickness 18.2 at the knot, 18.6 at the far end", ["knot", "far end"]),
        ("cable 22.4 V at the plug, 23.9 V at the supply", ["plug", "supply"]),
        ("lid paint 62 microns on the flat, 48 microns at the hem", ["flat", "hem"]),
        ("drum runout 0.12 at the keyway", ["keyway"]),
        ("hinge 2.04 thick at the knuckle, 1.97 at the leaf end",
         ["knuckle", "leaf end"]),
        ("lid film: 55 microns inside, 71 microns outside", ["inside", "outside"]),
        ("lamp 58 C at the driver, 44 C at the edge", ["driver", "edge"]),
        ("gate slot at the sprue mark 3.9", ["sprue mark"]),
    ],
)  # fmt: skip
def test_a_place_in_words_is_where_the_value_was_read(
    says: str, places: list[str]
) -> None:
    assert [one.place for one in taken(says).facts.readings] == places


def test_a_place_told_before_values_that_have_their_own_is_kept_beside_them() -> None:
    line = taken("base opening at the top edge: 178.62 front left, 178.66 back right")
    told = [(one.place, one.state) for one in line.facts.readings]
    assert told == [
        ("front left", "at the top edge"),
        ("back right", "at the top edge"),
    ]


@pytest.mark.parametrize(
    ("says", "what"),
    [("lamp 61 C at the face", "face"), ("lamp 38 dB at 1 m", "noise")],
)
def test_what_is_so_warm_or_loud_is_no_place(says: str, what: str) -> None:
    [reading] = taken(says).facts.readings
    assert (reading.what, reading.place) == (what, "")


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("glued the lid at the corner marks", Kind.STEP),
        ("lid cracked at 0.4 N·m at the boss", Kind.FAILURE),
        ("use 2.0 sheet at the hinge from now on", Kind.DECISION),
    ],
)
def test_where_work_and_failures_were_is_read_as_before(says: str, kind: Kind) -> None:
    line = understand(says, WORDS)
    assert line.kind is kind
    assert not any(one.place for one in line.facts.readings)


def test_what_a_value_is_on_is_its_part_where_none_is_named() -> None:
    line = understand("62 microns on the rocker", Vocabulary(now=NOW))
    assert not any(one.place for one in line.facts.readings)


@pytest.mark.parametrize(
    ("says", "what", "value"),
    [
        ("5v rail is at 4.92 V under load", "5v rail", "4.92 V"),
        ("24 V supply reads 23.8 V", "24 V supply", "23.8 V"),
        ("3.3v line measures 3.28 V", "3.3v line", "3.28 V"),
        ("470 ohm resistor measures 468 ohm", "470 ohm resistor", "468 ohm"),
        ("lamp on the 24 V rail draws 1.4 A", "current", "1.4 A"),
        ("lamp draws 0.82 A at 24 V", "current", "0.82 A"),
        ("12 V output at 11.8 V", "12 V output", "11.8 V"),
    ],
)
def test_what_a_thing_is_rated_for_is_not_measured(
    says: str, what: str, value: str
) -> None:
    [reading] = taken(says).facts.readings
    assert (reading.what, str(reading.value)) == (what, value)


@pytest.mark.parametrize(
    ("says", "values"),
    [
        ("lamp 24.0 V at the plug, 23.4 V at the board", ["24.0 V", "23.4 V"]),
        ("lamp draws 24 W", ["24 W"]),
        ("cable 0.42 ohm, lamp off", ["0.42 ohm"]),
    ],
)
def test_a_value_before_no_noun_is_measured(says: str, values: list[str]) -> None:
    assert [str(one.value) for one in understand(says, WORDS).facts.readings] == values


@pytest.mark.parametrize(
    ("says", "value"),
    [
        ("lamp noise 38 dB", "38 dB"),
        ("lamp 340 lux on the bed", "340 lux"),
        ("ripple 120 mV on the lamp", "120 mV"),
        ("pressure in the lamp held at 2.1 bar for 30 min", "2.1 bar"),
        ("lamp draws 18 mA off", "18 mA"),
        ("air at the collar 0.5 bar", "0.5 bar"),
    ],
)
def test_units_of_sound_light_and_pressure_are_read(says: str, value: str) -> None:
    assert str(taken(says).facts.readings[0].value) == value


@pytest.mark.parametrize(
    "says",
    [
        "cut the 20 x 10 bar to 180",
        "lid held 2 bar clamps",
        "3 bar lengths for the bed",
    ],
)
def test_a_bar_of_metal_is_no_pressure(says: str) -> None:
    line = understand(says, WORDS)
    assert all(one.value.dimension != "pressure" for one in line.facts.readings)


@pytest.mark.parametrize(
    ("says", "places"),
    [
        ("moisture 12 % at the ends and 10.5 % in the middle", ["ends", "middle"]),
        ("voltage 4.9 V at the board, 5.1 V at the plug", ["board", "plug"]),
    ],
)
def test_two_places_of_one_measure_need_no_part(says: str, places: list[str]) -> None:
    assert [one.place for one in taken(says).facts.readings] == places


def test_one_place_of_a_measure_may_be_the_part() -> None:
    line = understand("temperature 44 C at the motor", WORDS)
    assert not any(one.place for one in line.facts.readings)


@pytest.mark.parametrize(
    ("says", "place", "off"),
    [
        ("collar bore 8.02 at either end", "either end", ""),
        ("bed 240.2 at the opposite edge", "opposite edge", ""),
        ("hinge 0.2 too thick on the other side", "other side", "0.2"),
    ],
)
def test_one_of_two_places_is_a_place(says: str, place: str, off: str) -> None:
    facts = taken(says).facts
    places = {one.place for one in facts.readings} | {facts.place}
    assert place in places
    assert off in str(facts.off or "")


@pytest.mark.parametrize(
    ("says", "shown"),
    [
        ("lid lifts at either corner", "at either corner"),
        ("drum cracked at one screw", "at one screw"),
        ("hinge tore at the opposite one", "at the opposite one"),
        ("bed chipped at the far corner", "at the far corner"),
        ("snapped the tap in hole 3", "at hole 3"),
        ("print delaminated at layer 40", "at layer 40"),
    ],
)
def test_where_it_failed_is_said_as_one_says_it(says: str, shown: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.FAILURE, Verdict.TAKEN)
    assert shown in in_one_line(line).split(" · ")


@pytest.mark.parametrize(
    ("says", "shown"),
    [
        ("put the cable in its channel", "lies inside"),
        ("scrap lid 1", "scrap"),
        ("lamp face 58 C after 2 h, room 22", "after 2 h"),
        ("lamp face 58 C in a room of 22", "lamp"),
    ],
)
def test_a_fact_is_shown_without_words_that_say_it_twice(says: str, shown: str) -> None:
    said = in_one_line(understand(says, WORDS)).split(" · ")
    assert shown in said
    assert not [one for one in said if one.startswith("only in words")]


def test_either_that_weighs_two_things_is_no_place() -> None:
    for says in ("either the cable is bad or the lamp", "lid either too long or bent"):
        assert understand(says, WORDS).verdict is not Verdict.TAKEN
