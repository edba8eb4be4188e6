"""Lines that are on record, and a line after them, held to them and answered."""

from __future__ import annotations

from datetime import timedelta

from logbook.plain.answers.answering import answered
from logbook.plain.answers.held import held_to_records
from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.understanding import Understanding
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.judge import NOW
from tests.plain.records_of import known, world


def on_record(words: Vocabulary, *lines: str) -> Snapshot:
    """Give what is on record where these lines were said, one after the other."""
    records: dict[str, Record] = {one.id: one for one in known(words)}
    for at, line in enumerate(lines):
        draft = Draft(world(records.values()), NOW + timedelta(seconds=at))
        made = draft_line(draft, understand(line, words)).records
        records |= {one.id: one for one in made}
    return world(records.values())


def asked(words: Vocabulary, says: str, snapshot: Snapshot) -> Understanding:
    """Give the line as it is asked about before it is taken."""
    return held_to_records(understand(says, words), snapshot)


def told(
    words: Vocabulary, line: Understanding, answer: str, snapshot: Snapshot
) -> Draft:
    """Give the draft of the line with its question answered."""
    doubt = line.question
    assert doubt is not None
    said = answered(line, doubt, answer, words)
    said = held_to_records(said, snapshot, {doubt.question})
    return draft_line(Draft(snapshot, NOW), said)
