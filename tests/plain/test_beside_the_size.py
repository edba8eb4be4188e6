"""What a line says was allowed, or was tried before, is no size that was measured."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.plain.understanding import Kind, Understanding, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts("base", "collar", "gate", "mask", "crossbar")


def sizes(line: Understanding) -> list[str]:
    return [f"{one.what} {one.value}".strip() for one in line.facts.readings]


@pytest.mark.parametrize(
    ("says", "size", "limit"),
    [
        ("collar bore 6.3, should be between 6.1 and 6.2", "bore 6.3 mm", "6.2 mm"),
        ("gate slot 2.1, allowed 2.2-2.5", "slot 2.1 mm", "2.2 mm"),
        ("base opening 179.3, drawing wants 178.5 to 179.1", "opening 179.3 mm",
         "179.1 mm"),
        ("mask slot 2.6 (2.2 to 2.5)", "slot 2.6 mm", "2.5 mm"),
        ("the manual asks for 2.2 to 2.5 mm, gate slot is 2.6", "slot 2.6 mm",
         "2.5 mm"),
        ("gate slot 2.6, limits 2.2 - 2.5", "slot 2.6 mm", "2.5 mm"),
    ],
)  # fmt: skip
def test_what_is_outside_of_a_range_is_off_its_nearer_limit(
    says: str, size: str, limit: str
) -> None:
    line = understand(says, WORDS)
    assert line.line == says
    assert (line.kind, sizes(line)) == (Kind.READING, [size])
    assert [str(one) for one in line.facts.wanted] == [limit]


@pytest.mark.parametrize(
    "says",
    [
        "gate gap 0.4, manual wants 0.3 to 0.5",
        "base opening 178.8, drawing wants 178.5 to 179.1",
        "collar bore 6.15, should be between 6.1 and 6.2",
        "mask slot 2.4 (2.2 to 2.5)",
    ],
)
def test_what_is_inside_of_a_range_is_as_wanted(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN)
    assert len(line.facts.readings) == 1
    assert not line.facts.wanted
    assert not line.doubts
    limits = says.replace(",", "").rstrip(")").split(" ")[-1]
    assert limits in in_one_line(line).partition("only in words")[2]


@pytest.mark.parametrize(
    ("says", "size"),
    [
        ("drilled the collar out to 6.4 for the sleeve, 6.2 was too tight", "6.4 mm"),
        ("drilled the collar to 6.4, 6.2 was too tight", "6.4 mm"),
        ("filed the gate slot to 2.5, 2.3 was too narrow", "slot 2.5 mm"),
        ("opened the mask slot to 2.5 because 2.3 was much too small", "slot 2.5 mm"),
        ("cut the crossbar at 178.4; 179 had been too long", "178.4 mm"),
    ],
)
def test_a_size_that_was_too_small_is_why_and_not_what_was_made(
    says: str, size: str
) -> None:
    line = understand(says, WORDS)
    assert sizes(line) == [size]
    assert "too" in in_one_line(line)


@pytest.mark.parametrize(
    "says",
    [
        "base opening 178.8 while crossbar length is 178.6",
        "base opening 178.8, but the crossbar is 178.6",
        "base opening front 178.8 but the bar is 178.6, goes in snug",
        "collar bore 6.3 though the screw is 6.1",
        "gate slot 2.4 whereas the film is 2.2",
    ],
)
def test_sizes_of_two_things_are_asked_for_one_line_each(says: str) -> None:
    line = understand(says, WORDS)
    assert line.question is not None
    assert "measures two" in line.question.question


@pytest.mark.parametrize(
    "says",
    [
        "changed the slot of the gate from 2.2 to 2.5",
        "collar bore should be 6.1 to 6.2",
        "the base opening is too wide, 178.8",
    ],
)
def test_other_figures_are_read_as_they_were(says: str) -> None:
    line = understand(says, WORDS)
    assert line.line == says
    assert line.kind is not Kind.READING or line.verdict is not Verdict.KEPT


@pytest.mark.parametrize(
    "says",
    [
        "filed the collar edge pass 7",
        "painted the base coat 2",
        "bent the base, try 4",
        "filed the mask slot lap 2",
    ],
)
def test_which_time_it_was_is_no_size(says: str) -> None:
    assert not understand(says, WORDS).facts.readings
