"""A fastener word that is faced, bored or turned is a part; tightened, it is none."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
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
def test_a_machined_fastener_is_a_part_asked_about_where_parts_are_known(
    says: str, part: str
) -> None:
    assert understand(says, YOUNG).facts.part == part
    doubt = understand(says, PROJECT).question
    assert doubt is not None
    assert (doubt.about, doubt.choices) == ("part", (part, "no part"))


@pytest.mark.parametrize(
    "says", ["turned the nut tight", "bored the pin holes", "reamed the insert holes"]
)
def test_a_fastener_that_is_moved_or_only_names_a_hole_is_no_part(says: str) -> None:
    assert understand(says, YOUNG).facts.part == ""
