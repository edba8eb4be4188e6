"""Stock told behind the end of a name is asked of; a side in a name is no place."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts("quadruped foot", "upper leg left side", "cable", "lamp panel")


@pytest.mark.parametrize(
    "says",
    [
        "foot plate is 4 mm aluminium, drawing says 5, 4 is what you can buy",
        "foot rubber is 4 mm thick, drawing says 5, 4 is what you can buy",
        "panel sheet is 2.8 mm aluminium, drawing says 3",
    ],
)
def test_what_may_be_of_a_part_is_not_taken_as_stock_of_all(says: str) -> None:
    line = understand(says, WORDS)
    assert line.kind is not Kind.STOCK or line.verdict is Verdict.ASKED


@pytest.mark.parametrize("says", ["3 mm ply is 2.8 really", "6 mm plate measures 6.35"])
def test_plain_stock_is_taken(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.STOCK, Verdict.TAKEN)


@pytest.mark.parametrize(
    ("says", "place"),
    [
        ("upper leg bore 28.12, drawn 28.0", ""),
        ("left upper leg bore 28.12", ""),
        ("upper leg bore 28.12 at the front", "front"),
    ],
)
def test_a_word_of_its_name_is_no_place_on_it(says: str, place: str) -> None:
    line = understand(says, WORDS)
    assert line.facts.part == "upper leg left side"
    assert [one.place for one in line.facts.readings] == [place]
