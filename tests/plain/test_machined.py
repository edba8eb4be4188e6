"""A fastener word that is faced, bored or turned is a part; tightened, it is none."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Verdict
from logbook.plain.words.vocabulary import Vocabulary
from tests.plain.judge import NOW, PROJECT

YOUNG = Vocabulary(now=NOW)


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("faced and bored the pin", "pin"),
        ("turned the pin to 7.96", "pin"),
        ("faced the standoffs", "standoff"),
    ],
)
@pytest.mark.parametrize("words", [YOUNG, PROJECT], ids=["first", "with parts"])
def test_a_machined_fastener_is_a_part(says: str, part: str, words: Vocabulary) -> None:
    line = understand(says, words)
    assert line.verdict is Verdict.TAKEN
    assert (line.facts.part, line.facts.part_is_new) == (part, True)


@pytest.mark.parametrize(
    "says",
    ["turned the nut tight", "bored the pin holes", "reamed the insert holes",
     "fitted the pins", "pressed the dowels in"],
)  # fmt: skip
@pytest.mark.parametrize("words", [YOUNG, PROJECT], ids=["first", "with parts"])
def test_a_fastener_that_is_moved_or_only_names_a_hole_is_no_part(
    says: str, words: Vocabulary
) -> None:
    assert understand(says, words).facts.part == ""
