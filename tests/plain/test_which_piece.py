"""The piece a line tells of: its revision and its build are said, not guessed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.plain.drafts.entries import draft_line
from logbook.plain.drafts.remarks import remarks
from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Run
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.judge import NOW
from tests.plain.records_of import drafted, known, world

WORDS = Vocabulary(
    now=NOW,
    parts={"base": (), "mask": ()},
    characteristics={"base": ("opening",), "mask": ("aperture",)},
)


def with_revision_a() -> Snapshot:
    """Give a base measured in its first issue, with revision A opened since."""
    records = known(WORDS)
    first = understand("base 1 opening 178.6", WORDS)
    records = (*records, *drafted(first, world(records)))
    draft = Draft(world(records), NOW)
    base = draft.snapshot.named("base", Part)[0]
    draft.new_revision(base, "A", changed="wider")
    return world((*records, *draft.records))


def test_a_revision_said_of_a_piece_shifts_no_reading() -> None:
    line = understand(
        "base 3 rev A opening 180.2 front left, 180.1 front right, "
        "180.3 back left, 180.4 back right",
        WORDS,
    )
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.READING)
    assert [(one.value.text, one.place) for one in line.facts.readings] == [
        ("180.2 mm", "front left"),
        ("180.1 mm", "front right"),
        ("180.3 mm", "back left"),
        ("180.4 mm", "back right"),
    ]


def test_a_new_piece_is_of_the_revision_that_was_said() -> None:
    snapshot = with_revision_a()
    for says, of in (("base 3 rev A", "base rev A"), ("base 3", "base rev A")):
        line = understand(f"{says} opening 180.2", WORDS)
        draft = draft_line(Draft(snapshot, NOW), line)
        [piece] = [one for one in draft.new if isinstance(one, Piece)]
        assert piece.revision is not None
        assert piece.revision.name == of


def test_the_piece_of_a_revision_said_alone_is_its_newest() -> None:
    line = replace(
        understand("base rev A opening 180.2", WORDS), kind=Kind.READING, doubts=()
    )
    line = replace(line, confidence=1.0)
    draft = draft_line(Draft(with_revision_a(), NOW), line)
    [piece] = [one for one in draft.new if isinstance(one, Piece)]
    assert piece.revision is not None
    assert piece.revision.name == "base rev A"


def test_another_revision_than_on_record_is_said_to_be_in_words() -> None:
    line = understand("base 1 rev A opening 180.2", WORDS)
    draft = draft_line(Draft(with_revision_a(), NOW), line)
    assert any(
        "“rev A” is in words only: base-1 is of base" in one for one in remarks(draft)
    )


@pytest.mark.parametrize(
    "says", ["mask 1 aperture 36.2", "mask 1 cracked", "scrapped mask 1"]
)
def test_a_piece_of_another_build_is_said_to_be(says: str) -> None:
    records = known(WORDS)
    first = understand("mask 1 aperture 36.1", WORDS)
    snapshot = world((*records, *drafted(first, world(records))))
    draft = Draft(snapshot, NOW)
    draft.new_build()
    draft_line(draft, understand(says, WORDS))
    assert "mask-1, of build 1" in remarks(draft)
    here = draft_line(Draft(snapshot, NOW), understand(says, WORDS))
    assert not any("of build" in one for one in remarks(here))


def test_a_reading_is_told_of_the_piece_it_was_taken_on() -> None:
    draft = draft_line(
        Draft(with_revision_a(), NOW), understand("base 1 opening 178.7", WORDS)
    )
    [run] = [one for one in draft.new if isinstance(one, Run)]
    assert run.piece is not None
    assert run.piece.name == "base-1"
