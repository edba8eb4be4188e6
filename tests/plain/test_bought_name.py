"""What is used instead of a bought part is tied to it by the name it is bought by."""

from __future__ import annotations

import pytest

from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Decision
from logbook.records.making.drafts import Draft
from tests.plain.judge import NOW, PROJECT, of_parts
from tests.plain.records_of import known, world

WORDS = of_parts("M4x25 screw", "M5x25 screw", "washer", "lid")


@pytest.mark.parametrize(
    "says",
    [
        "used M4x30 instead of M4x25",
        "used M4x30 instead of the M4x25 screws",
        "used M4x30 instead of M4x25 on the lid",
        "ran out of M4x25, took an M4x30 with two washers instead",
    ],
)
def test_the_decision_is_on_the_page_of_the_part_that_was_not_used(says: str) -> None:
    line = understand(says, WORDS)
    assert "M4x25 screw" in in_one_line(line)
    snapshot = world(known(WORDS))
    draft = draft_line(Draft(snapshot, NOW), line)
    [decision] = [one for one in draft.new if isinstance(one, Decision)]
    [screw] = snapshot.named("M4x25 screw", Part)
    tied = {ref.id for ref in (decision.part, *decision.about) if ref}
    assert screw.id in tied
    assert not [one for one in draft.new if isinstance(one, Part)]


def test_a_name_that_two_parts_have_ties_to_neither() -> None:
    two = ("M4x25 screw", "M4x25 pan head screw")
    words = of_parts(*two)
    line = understand("used M4x30 instead of M4x25", words)
    assert (line.facts.part, line.facts.others) == ("", ())


@pytest.mark.parametrize(
    ("says", "item"),
    [("bought 2 more belts", "belts"), ("ordered 3 extra hose clips", "hose clips")],
)
def test_more_of_a_thing_is_that_thing(says: str, item: str) -> None:
    assert understand(says, PROJECT).facts.item == item
