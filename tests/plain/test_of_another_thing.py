"""What another thing is called by is no reading of the part: the 100 mm hose."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from tests.plain.judge import NOW

HOSE = (
    "the 100 mm hose does not go over the hose-spigot, outside diameter 103 should be "
    "99.5"
)
FAN = "the 60 mm fan does not go over the lid"
WORDS = Vocabulary(NOW, parts={"hose-spigot": (), "lid": (), "drawer": ()})


@pytest.mark.parametrize(
    ("line", "value", "wanted"),
    [
        (HOSE, "103 mm", "99.5 mm"),
        (f"{FAN}, inside width 61 should be 60.5", "61 mm", "60.5 mm"),
    ],
)
def test_only_the_size_that_is_named_was_read(
    line: str, value: str, wanted: str
) -> None:
    facts = understand(line, WORDS).facts
    assert [str(one.value) for one in facts.readings] == [value]
    assert [str(one) for one in facts.wanted] == [wanted]


@pytest.mark.parametrize(
    ("line", "values"),
    [
        ("lid width 60.2, length 81.4", ["60.2 mm", "81.4 mm"]),
        ("lid left 60.2, right 60.4", ["60.2 mm", "60.4 mm"]),
        ("lid 60.2 wide", ["60.2 mm"]),
    ],
)
def test_what_was_read_stays_read(line: str, values: list[str]) -> None:
    found = understand(line, WORDS)
    assert found.kind is Kind.READING
    assert [str(one.value) for one in found.facts.readings] == values


@pytest.mark.parametrize(
    "line",
    [
        "cut the drawer from 4 mm polystyrene",
        "made the drawer out of 18 mm beech",
        "made the drawer in 2 mm aluminium",
    ],
)
def test_what_a_thing_is_made_of_is_no_size_of_it(line: str) -> None:
    found = understand(line, WORDS)
    assert found.kind is Kind.STEP
    assert found.facts.readings == ()
    assert found.verdict is Verdict.TAKEN


def test_the_radius_that_something_was_made_with_is_named() -> None:
    facts = understand("made a second drawer with 2 mm radius", WORDS).facts
    assert [(one.what, str(one.value)) for one in facts.readings] == [
        ("radius", "2 mm")
    ]
