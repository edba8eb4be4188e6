"""Instants of drafted records: in the order they were logged."""

from __future__ import annotations

from datetime import timedelta

from logbook.records.kinds.happenings import Note
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft
from logbook.records.together.from_files import make_snapshot
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import Parsed
from tests.records.strategies import NOON


def snap(*records: Record) -> Snapshot:
    return make_snapshot([(f"{r.id}.md", "", Parsed(r)) for r in records])


def test_what_is_logged_later_in_one_second_stands_later() -> None:
    logged: list[Record] = []
    for number in range(30):
        draft = Draft(snap(*logged), NOON + timedelta(milliseconds=30 * number))
        # Ids that fall make the order by id the wrong one.
        logged.append(
            draft.add(Note(id=f"nte000{99 - number}", title="n", when=draft.when))
        )
    assert list(snap(*logged)) == logged


def test_an_instant_alone_in_its_second_is_a_whole_one() -> None:
    earlier = Note(id="nte00001", title="n", when=NOON - timedelta(seconds=1))
    draft = Draft(snap(earlier), NOON + timedelta(milliseconds=870))
    assert draft.when == NOON
