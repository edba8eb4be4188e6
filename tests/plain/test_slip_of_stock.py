"""A thickness is held to what its part is made from, where no thickness is drawn."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.plain.answers.held import held_to_records
from logbook.plain.lines import understand
from logbook.plain.words.vocabulary import Vocabulary
from logbook.quantity import parse_quantity
from logbook.records.kinds.design import Part
from tests.plain.judge import NOW
from tests.plain.records_of import known, world

WORDS = Vocabulary(now=NOW, parts={"diffuser": (), "lid": ()})
FOUR = parse_quantity("4 mm")
STAND = world(
    replace(one, thickness=FOUR)
    if isinstance(one, Part) and one.title == "diffuser"
    else one
    for one in known(WORDS)
)


@pytest.mark.parametrize(
    ("says", "asks"),
    [
        (
            "diffuser thickness 41",
            "“41 mm” is ten times what is drawn, 4 mm: 4.1 mm?",
        ),
        (
            "difuser thickness 41",
            "“41 mm” is ten times what is drawn, 4 mm: 4.1 mm?",
        ),
        ("diffuser thickness 4.1", ""),
        ("lid thickness 41", ""),
        ("diffuser width 41", ""),
    ],
)
def test_it_is_asked_about_where_it_looks_like_a_slip(says: str, asks: str) -> None:
    line = held_to_records(understand(says, WORDS), STAND)
    question = line.question
    assert (question.question if question and question.about == "slip" else "") == asks
