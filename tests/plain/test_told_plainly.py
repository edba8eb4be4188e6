"""What is told in the plainest words: left like it is, do 3 extra, by the fumes."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts("base", "crossbar", "diffuser")


@pytest.mark.parametrize(
    "says",
    [
        "crossbar stays like it is",
        "leave the base like it is",
        "the base can stay like it is",
        "base 2 stays like it is",
    ],
)
def test_what_stays_like_it_is_is_used_as_it_is(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.DECISION)
    assert line.facts.disposition == "use as is"


@pytest.mark.parametrize(
    "says",
    ["do 3 extra crossbars", "do two extra crossbars just in case", "do 2 more bases"],
)
def test_more_to_be_made_is_a_decision_and_no_count(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.DECISION)


def test_what_was_done_is_still_counted() -> None:
    assert understand("did 3 extra crossbars", WORDS).kind is Kind.COUNT


@pytest.mark.parametrize(
    ("says", "cause"),
    [
        ("diffuser crazed by the glue fumes", "the glue fumes"),
        ("diffuser warped by the heat", "the heat"),
        ("diffuser fogged from the cement fumes", "the cement fumes"),
    ],
)
def test_what_befell_it_by_fumes_or_heat_is_why(says: str, cause: str) -> None:
    line = understand(says, WORDS)
    assert line.kind is Kind.FAILURE
    assert line.facts.cause is not None
    assert line.facts.cause.said == cause
    assert line.facts.where == ""


def test_what_it_cracked_by_may_be_where() -> None:
    line = understand("diffuser cracked by the left screw", WORDS)
    assert line.facts.cause is None
    assert line.facts.where == "left screw"
