"""Sizes of two things in one line are asked about, and none goes to the other."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.happenings import Run
from tests.plain.fresh import DEMO
from tests.plain.judge import of_parts
from tests.plain.records_of import drafted, known, world

PARTS = "base crossbar bed lid lamp cable gate collar hinge drum motor mask plinth"
WORDS = of_parts(*PARTS.split())


@pytest.mark.parametrize("words", [WORDS, DEMO])
@pytest.mark.parametrize(
    "says",
    [
        "base opening 179,4 and crossbar length 179,1",
        "lid flange 12.2 and mask aperture height 24.1",
        "lid flange 12.2 mask aperture height 24.1",
        "base flange 24.9 and the bed thickness is 17.9",
        "collar bore 8.02 & gate width 7.98",
        "lamp current 0.6 A and the cable resistance is 0.2 ohm",
        "base weighs 410 g, pointer 9 g",
        "lid weighs 41 g and the cover 9 g",
        "collar weighs 12 g, ring weighs 3 g",
    ],
)
def test_two_parts_with_a_size_each_are_asked_about(
    says: str, words: Vocabulary
) -> None:
    line = understand(says, words)
    assert line.verdict is Verdict.ASKED
    assert "two things" in line.doubts[0].question


@pytest.mark.parametrize(
    ("says", "sizes"),
    [
        ("lid width 120.2 and length 80.1", ["width", "length"]),
        ("gap between crossbar and base 0.3 and 0.4", ["gap", "gap"]),
        ("base opening 178.6 at the lamp and 178.4 at the gate", ["opening"] * 2),
    ],
)
def test_sizes_of_one_thing_are_taken(says: str, sizes: list[str]) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN)
    assert [one.what for one in line.facts.readings] == sizes


@pytest.mark.parametrize(
    "says",
    [
        "plinth width drawn 63.6 ±0.2, length 118",
        "drum bore should be 8.0, depth 12.1",
        "lid height drawn 40, width 61.2",
    ],
)
def test_what_is_drawn_of_one_size_is_not_wanted_of_another(says: str) -> None:
    assert understand(says, WORDS).verdict is Verdict.ASKED


@pytest.mark.parametrize(
    ("says", "wanted"),
    [
        ("plinth drawn 63.6 ±0.2, measured 63.9", ["63.6 mm"]),
        ("drum should be 8.0 bore, is 8.1", ["8.0 mm"]),
        ("collar bore 10.02 drawn 10.0 ±0.05", []),
        ("plinth width 63.7 (drawn 63.6 ±0.2)", []),
        ("collar bore 10.12 drawn 10.0 ±0.05", ["10.0 mm"]),
    ],
)
def test_within_the_limits_told_with_it_a_size_is_as_drawn(
    says: str, wanted: list[str]
) -> None:
    line = understand(says, WORDS)
    assert line.verdict is Verdict.TAKEN
    assert [str(one) for one in line.facts.wanted] == wanted
    asked = any(one.about == "met_by_others" for one in line.doubts)
    assert asked == bool(wanted)


QUADRUPED = of_parts("quadruped foot", "upper leg", "cable", "motor housing")


@pytest.mark.parametrize(
    "says",
    [
        "upper leg weighs 41 g, foot 9 g",
        "cable 330 long, foot 32",
        "cable weighs 12 g and the foot 9 g",
        "motor housing bore 22.1, foot is 12.9",
    ],
)
def test_a_part_told_by_the_end_of_its_name_is_no_size_of_another(says: str) -> None:
    line = understand(says, QUADRUPED)
    assert line.verdict is Verdict.ASKED
    assert "two things" in line.doubts[0].question


@pytest.mark.parametrize(
    "says",
    [
        "motor housing bore 22.1, wall 2.5",
        "motor housing weighs 80 g, 78 g dry",
        "foot wall 3.1, heel 2.9",
    ],
)
def test_features_of_one_part_are_its_sizes(says: str) -> None:
    assert "two things" not in str(understand(says, QUADRUPED).doubts)


def test_the_place_of_one_size_is_not_that_of_another() -> None:
    line = understand("lid width 12.95 and the flange at its rear is 3.05", WORDS)
    runs = [one for one in drafted(line, world(known(WORDS))) if isinstance(one, Run)]
    [run] = runs
    assert [one.place for one in run.readings] == ["", "rear"]
