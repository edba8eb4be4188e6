"""Whatever the words, a part that is put on is on; one that is worked on is not."""

from __future__ import annotations

import pytest

from logbook.plain.drafts.put_on import put_on


@pytest.mark.parametrize(
    "words",
    [
        "fitted the lid",
        "put the lid on",
        "put the lid back on, 10 min",
        "lid is on",
        "the lid is on now and shut",
        "lid fastened",
        "Mounted the lid with 4 screws.",
        "lid done",
        "rivited the lid on",
        "clsoed the lid",
        "fastened its lid to the base",
    ],
)
def test_a_part_is_put_on_by_any_words_for_it(words: str) -> None:
    assert put_on(words, ("lid",))


@pytest.mark.parametrize(
    "words",
    [
        "put the lid on the bench",
        "the lid is on the bench",
        "filed the lid",
        "drilled the lid",
        "glued the felt to the lid",
        "fitted the lid hinge",
        "the lid is not on",
        "lid fits",
        "put the cable in the lid",
        "painted the lid",
    ],
)
def test_a_part_worked_on_or_laid_down_is_not(words: str) -> None:
    assert not put_on(words, ("lid",))
