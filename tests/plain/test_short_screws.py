"""A screw that is too short is a failure, by its thread or by the name of its part."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind
from logbook.plain.words.vocabulary import Vocabulary

WORDS = Vocabulary(
    now=datetime(2026, 11, 28, tzinfo=UTC), parts={"M8x25 bolt": (), "arm": ()}
)


@pytest.mark.parametrize(
    "line",
    [
        "M8x25 bolt too short, only 0.5 mm through the nut",
        "M4x16 too short, only 0.2 past the nut",
        "the M8x25 bolt is too short",
        "the M8x25 bolt is too short, only 0.5 mm through the nut",
    ],
)
def test_it_fails_whatever_it_still_stands_through(line: str) -> None:
    assert understand(line, WORDS).kind is Kind.FAILURE


@pytest.mark.parametrize("line", ["M8x25 bolt 3 too short", "arm too short, 0.4"])
def test_a_length_it_lacks_is_still_measured(line: str) -> None:
    assert understand(line, WORDS).kind is Kind.READING
