"""Clauses that likely tell why, and what of a line is told beside it in short forms."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.sure.unread import WHY
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT
from tests.plain.records_of import drafted, known, world


def test_a_clause_that_likely_tells_why_is_asked_about() -> None:
    line = understand("saw drifted, cut is not square", PROJECT)
    told = line.facts.cause is not None and line.facts.cause.said == "saw drifted"
    asked = line.question is not None and line.question.choices[:1] == (WHY,)
    assert told or asked


@pytest.mark.parametrize(
    "says",
    ["Paint blistered on base, lamp side", "rivet popd, lid, again"],
)
def test_a_place_or_how_often_is_not_asked_about_as_why(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is Verdict.TAKEN
    assert line.facts.cause is None


def test_why_stands_behind_marks_of_alarm() -> None:
    line = understand("diffuser split!! screw too tight", PROJECT)
    assert line.facts.cause is not None
    assert line.facts.cause.said == "screw too tight"


def test_where_it_was_is_not_why() -> None:
    line = understand("drilled through the cable!! it was under the bed", PROJECT)
    assert (line.facts.cause, line.facts.where) == (None, "under the bed")


def test_a_numbered_terminal_is_where() -> None:
    line = understand("shorted two strands at terminal 2", PROJECT)
    assert line.facts.where == "terminal 2"


def test_a_cable_led_down_into_a_part_is_inside() -> None:
    line = understand("slid the cable down into the upright", PROJECT)
    assert (line.kind, line.facts.inside) == (Kind.STEP, True)


def test_what_compares_is_not_taken_for_work() -> None:
    line = understand("brass inserts > tapped plastic", PROJECT)
    assert line.verdict is not Verdict.TAKEN or line.kind is Kind.NOTE


def test_a_bare_size_wanted_is_of_the_unit_that_was_read() -> None:
    line = understand("lamp CCT 4870 K, spec 5000", PROJECT)
    assert [one.text for one in line.facts.wanted] == ["5000 K"]
    assert drafted(line, world(known(PROJECT)))


def test_what_did_not_happen_is_no_failure_by_its_words() -> None:
    line = understand("no crack in the diffuser after a week", PROJECT)
    assert line.kind is not Kind.FAILURE or line.verdict is not Verdict.TAKEN
