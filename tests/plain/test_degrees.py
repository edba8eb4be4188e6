"""Degrees of heat are told from degrees of an angle, or it is asked."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.lines import understand
from logbook.plain.words.vocabulary import Vocabulary

WORDS = Vocabulary(
    now=datetime(2026, 3, 7, 12, 0, tzinfo=UTC),
    parts={"lamp": (), "gate": (), "lid": (), "upright": (), "crossbar": ()},
    characteristics={"gate": ("face temperature",), "upright": ("angle",)},
)


@pytest.mark.parametrize(
    ("line", "values"),
    [
        ("lamp gets 58 degrees after an hour", ["58 °C"]),
        ("lamp at 58 degrees, 22 in the room, after 2 hours", ["58 °C"]),
        ("gate 61 deg", ["61 °C"]),
        ("lid 41° after 2 h", ["41 °C"]),
        ("printed the gate at 230 degrees", ["230 °C"]),
        ("lamp tilted 30 degrees", ["30 degrees"]),
        ("upright 89 degrees", ["89 degrees"]),
        ("base leans 0.4 degrees", ["0.4 degrees"]),
        ("bend came out at 88 degrees", ["88 degrees"]),
    ],
)
def test_words_beside_tell_which_degrees(line: str, values: list[str]) -> None:
    told = understand(line, WORDS)
    assert [str(one.value) for one in told.facts.readings] == values
    assert not any(one.needed for one in told.doubts)


@pytest.mark.parametrize("line", ["lid is 58 degrees", "lid tab 15 deg", "lid 40°"])
def test_where_nothing_tells_it_is_asked(line: str) -> None:
    asked = understand(line, WORDS)
    question = asked.question
    assert question is not None
    assert "of heat, or an angle?" in question.question
    dimensions = {
        answered(asked, question, choice, WORDS).facts.readings[0].value.dimension
        for choice in question.choices
    }
    assert dimensions == {"temperature", "angle"}


def test_who_works_in_inches_is_asked_which_heat() -> None:
    inches = replace(WORDS, unit="in")
    question = understand("lamp gets 136 degrees after an hour", inches).question
    assert question is not None
    assert question.choices == ("136 °F", "136 °C")


def test_a_turned_print_is_no_warm_one() -> None:
    question = understand("printed the gate at 15 degrees", WORDS).question
    assert question is not None
    assert question.choices == ("15 °C", "angle 15°")
