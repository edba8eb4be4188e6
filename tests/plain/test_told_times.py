"""How long work took and when it was, as it is spoken of; what is assumed is said."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.shown import describe, in_one_line
from logbook.plain.understanding import Kind
from tests.plain.judge import PROJECT, of_parts


@pytest.mark.parametrize(
    ("said", "minutes"),
    [
        ("an hour and a quarter", 75),
        ("one hour and a half", 90),
        ("half an hour", 30),
        ("two and a half hours", 150),
        ("2 hours and a quarter", 135),
        ("three quarters of an hour", 45),
        ("a quarter of an hour", 15),
        ("two hours", 120),
    ],
)
def test_a_time_in_words_is_read_whole(said: str, minutes: int) -> None:
    facts = understand(f"sawed the crossbar, took {said}", PROJECT).facts
    took = facts.minutes or facts.hours
    assert took is not None
    assert took.to("min") == minutes


@pytest.mark.parametrize(
    ("says", "when", "said"),
    [
        ("sanded the bed last night at half past eight", "2026-03-13T20:30", True),
        ("sanded the bed at half past eight", "2026-03-14T08:30", True),
        ("yesterday from 19:30 to 21:00 sat sanding the bed", "2026-03-13T19:30", True),
        ("sanded the bed yesterday", "2026-03-13T12:00", False),
        ("this morning the bed smelled of oil", "2026-03-14T09:00", False),
    ],
)
def test_an_hour_that_is_said_is_taken_and_one_assumed_is_said_to_be(
    says: str, when: str, said: bool
) -> None:
    line = understand(says, PROJECT)
    assert line.facts.when is not None
    assert line.facts.when.isoformat().startswith(when)
    shown = dict(describe(line))["when"]
    assert shown.endswith("hour not said") is not said


def test_a_note_shows_its_part_and_its_moment() -> None:
    shown = in_one_line(understand("yesterday the bed smelled of oil", PROJECT))
    assert shown.startswith("note")
    assert "bed" in shown
    assert "when 2026-03-13 12:00, hour not said" in shown


@pytest.mark.parametrize(
    ("says", "minutes"),
    [
        ("spent 40 minutes this morning reaming the axle hole of the collar", 40),
        ("yesterday from 19:30 to 21:00 sat sanding the bed, 1 h 30 in all", 90),
    ],
)
def test_time_spent_on_work_is_work_done(says: str, minutes: int) -> None:
    line = understand(says, PROJECT)
    took = line.facts.minutes or line.facts.hours
    assert line.kind is Kind.STEP
    assert took is not None
    assert took.to("min") == minutes


def test_what_each_took_is_not_what_all_of_it_took() -> None:
    line = understand("printed the gate and the lid, 6 h each", PROJECT)
    assert (line.facts.hours, line.facts.minutes) == (None, None)
    assert "6 h" in in_one_line(line).partition("only in words")[2]


@pytest.mark.parametrize(
    "says",
    [
        "glued the lid, open time 10 min",
        "glued the lid, pot life is 20 min",
        "glued the lid, drying time of 40 min",
    ],
)
def test_how_long_a_glue_lets_one_work_is_no_time_the_work_took(says: str) -> None:
    line = understand(says, of_parts("lid"))
    assert line.kind is Kind.STEP
    assert line.facts.minutes is None
    both = understand(f"{says}, took 15 min", of_parts("lid"))
    assert str(both.facts.minutes) == "15 min"
