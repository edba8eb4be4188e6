"""The diary of the builder notes: no word twice, no word that only meant that day."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from logbook.publish.diary import undated
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")

NOON = datetime(2026, 3, 6, 12, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("yesterday 16:00 put the lamp in, it lights", "put the lamp in, it lights"),
        ("put the lamp in yesterday at 16:00, it lights", "put the lamp in, it lights"),
        ("folded the base 2 h ago", "folded the base"),
        ("this morning sawed the bar", "sawed the bar"),
        ("put the lamp in, it lights now", "put the lamp in, it lights now"),
        ("sawed the bar at 178.45", "sawed the bar at 178.45"),
        ("folded on 2026-03-04", "folded on 2026-03-04"),
    ],
)
def test_words_that_count_from_the_day_they_were_typed_are_left_out(
    typed: str, printed: str
) -> None:
    assert undated(typed, NOON) == printed


def test_nothing_is_said_twice_in_a_line(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    drawn.run("say", "folded the base, 40 min", "--yes")
    drawn.run("note", "note: sanded the bed")
    why = "the opening moves every time"
    said = f"decided to make the bar last, because {why}"
    drawn.run("decision", said, "--because", why)
    text = drawn.run("notes", "--print")[1]
    assert "- Done: folded the base, 40 min.\n" in text
    assert "- Note: sanded the bed.\n" in text
    assert f"- Decided: to make the bar last, because {why}.\n" in text
    assert "Why:" not in text
