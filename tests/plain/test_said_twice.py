"""A line that was typed a little before is said to be on record already."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.plain.drafts.entries import draft_line
from logbook.plain.drafts.remarks import remarks
from logbook.plain.lines import understand
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.making.drafts import Draft
from tests.plain.judge import NOW
from tests.plain.on_record import on_record

WORDS = Vocabulary(now=NOW, parts={"folder roll": (), "base": ()})
TWICE = "the same words are on record of "


@pytest.mark.parametrize(
    ("says", "later", "told"),
    [
        ("base cracked at the bend", timedelta(minutes=5), True),
        ("Base cracked at the bend", timedelta(minutes=5), True),
        ("base cracked at the rim", timedelta(minutes=5), False),
        ("base cracked at the bend", timedelta(hours=3), False),
    ],
)
def test_only_the_same_words_of_the_last_hour_are_said_to_be_there(
    says: str,
    later: timedelta,
    told: bool,
) -> None:
    snapshot = on_record(WORDS, "base cracked at the bend")
    draft = Draft(snapshot, NOW + later)
    draft_line(draft, understand(says, WORDS))
    assert any(one.startswith(TWICE) for one in remarks(draft)) is told
