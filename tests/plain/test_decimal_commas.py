"""A point before three figures, from who types decimal commas: asked, as a comma is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.lines import understand
from logbook.plain.understanding import Verdict
from tests.plain.judge import of_parts

COMMAS = replace(of_parts("base"), commas=True)


@pytest.mark.parametrize(
    ("answer", "size"), [("1216", "1216 mm"), ("1.216", "1.216 mm")]
)
def test_thousands_or_decimals_is_asked_once(answer: str, size: str) -> None:
    line = understand("base diagonal 1.216 mm", COMMAS)
    assert line.question is not None
    assert line.question.question == "“1.216” can be two numbers: which?"
    assert line.question.choices == ("1216", "1.216")
    told = answered(line, line.question, answer, COMMAS)
    assert [str(one.value) for one in told.facts.readings] == [size]


def test_the_unit_stays_with_the_number_that_was_meant() -> None:
    line = understand("base diagonal 1,216 in", of_parts("base"))
    assert line.question is not None
    told = answered(line, line.question, "1.216", of_parts("base"))
    assert [str(one.value) for one in told.facts.readings] == ["1.216 in"]


def test_a_comma_before_three_figures_is_asked_once_too() -> None:
    line = understand("base diagonal 1,216 mm", COMMAS)
    assert line.question is not None
    told = answered(line, line.question, "1.216", COMMAS)
    assert told.verdict is Verdict.TAKEN


@pytest.mark.parametrize("says", ["base diagonal 12.16 mm", "base height 0.815"])
def test_what_can_be_no_thousands_is_not_asked(says: str) -> None:
    assert understand(says, COMMAS).verdict is Verdict.TAKEN


def test_with_points_in_the_record_a_point_is_one() -> None:
    line = understand("base diagonal 1.216 mm", of_parts("base"))
    assert line.verdict is Verdict.TAKEN
