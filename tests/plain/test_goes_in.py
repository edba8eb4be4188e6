"""Which part goes into which is a note of both, so that the room is asked about."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.advice.proposals import proposals
from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.understanding import Kind
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Note
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.judge import NOW
from tests.plain.records_of import drafted, known, world

WORDS = Vocabulary(
    now=NOW,
    parts={"back board": (), "base": ()},
    characteristics={"back board": ("thickness",), "base": ("slot",)},
)
SIZES = ("base slot 18.45", "back board thickness 18.02")
"""Nearly equal, yet by themselves too far apart to be taken for mates."""


def _with(*lines: str) -> Snapshot:
    records = {one.id: one for one in known(WORDS)}
    for after, line in enumerate(lines):
        draft = Draft(world(records.values()), NOW + timedelta(minutes=after))
        draft_line(draft, understand(line, WORDS))
        records |= {one.id: one for one in draft.new}
    return world(records.values())


def _asked(snapshot: Snapshot) -> list[str]:
    return [one.question for one in proposals(snapshot) if one.topic == "gap"]


@pytest.mark.parametrize(
    "says",
    [
        "the back board goes into the base slot",
        "the back board goes into the base slot, 0.2 to 0.6",
        "back board slides into the base",
    ],
)
def test_it_is_asked_how_much_room_there_is(says: str) -> None:
    assert _asked(_with(*SIZES)) == []
    [asked] = _asked(_with(*SIZES, says))
    assert "does the back board go into the base's slot?" in asked


@pytest.mark.parametrize(
    "says",
    [
        "the back board is as thick as the base slot",
        "the back board goes beside the base",
        "the back board and the base are in the box",
    ],
)
def test_what_only_names_both_asks_nothing(says: str) -> None:
    assert _asked(_with(*SIZES, says)) == []


def test_where_a_size_is_missing_it_is_said_which() -> None:
    words = Vocabulary(now=NOW, parts=WORDS.parts, characteristics={"base": ("slot",)})
    draft = Draft(world(known(words)), NOW)
    line = understand("the back board goes into the base", words)
    [note] = draft_line(draft, line).new
    assert isinstance(note, Note)
    assert "no size of back board is on record" in draft.remarks[0]


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("the back board does not go into the base slot", Kind.FAILURE),
        ("the back board goes into the base slot, gap 0.4", Kind.READING),
    ],
)
def test_what_came_of_it_is_told_as_before(says: str, kind: Kind) -> None:
    assert understand(says, WORDS).kind is kind


def test_no_part_is_made_by_it() -> None:
    bare = Vocabulary(now=NOW)
    line = understand("the back board goes into the base slot", bare)
    made = drafted(line, world(known(bare)))
    assert not [one for one in made if isinstance(one, Part)]


def test_room_that_was_told_is_offered_and_taken_with_a_yes() -> None:
    snapshot = _with(*SIZES, "the back board goes into the base slot, 0.2 to 0.6")
    [asked] = [one for one in proposals(snapshot) if one.topic == "gap"]
    assert asked.question.endswith("with the room told, 0.2 to 0.6?")
    for answer, limits in (
        ("yes", ("0.2 mm", "0.6 mm")),
        ("0.1 to 0.4", ("0.1 mm", "0.4 mm")),
    ):
        draft = Draft(snapshot, NOW)
        asked.take(draft, answer)
        [fit] = [one for one in draft.new if isinstance(one, Fit)]
        assert (str(fit.lower_limit), str(fit.upper_limit)) == limits
