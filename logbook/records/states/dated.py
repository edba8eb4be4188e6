"""Entries that are dated before their build began, or before their piece was made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logbook.records.kinds.happenings import Deviation, Entry, Failure, Run
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.together.snapshot import Snapshot


def dated_before(snapshot: Snapshot, records: Iterable[Record]) -> Iterator[str]:
    """Say which entries are dated before their build began, or their piece was made."""
    every = list(records)
    late = list(before_their_build(snapshot, every))
    yield from late or before_their_piece(snapshot, every)


def before_their_piece(snapshot: Snapshot, records: Iterable[Record]) -> Iterator[str]:
    """Say of each piece on record that was read, or failed, before it was made.

    A piece typed in later may have been made earlier; more often it is another one.
    """
    said: set[str] = set()
    for entry in records:
        if not isinstance(entry, Deviation | Failure | Run):
            continue
        piece = snapshot.find(entry.piece, Piece)
        if piece is None or entry.when >= piece.when or piece.id in said:
            continue
        said.add(piece.id)
        yield _before(entry, piece, "was made")


def before_their_build(snapshot: Snapshot, records: Iterable[Record]) -> Iterator[str]:
    """Say of each build that entries are dated before it began, which is no refusal.

    What was done to a piece beforehand may well belong to it; more often the day, or
    the build, is another one.
    """
    every = list(records)
    made = {one.id: one for one in every if isinstance(one, Build)}
    said: set[str] = set()
    for entry in every:
        if not isinstance(entry, Entry) or entry.build is None:
            continue
        build = made.get(entry.build.id) or snapshot.find(entry.build, Build)
        if build is None or entry.when >= build.when or build.id in said:
            continue
        said.add(build.id)
        yield _before(entry, build, "began")


def _before(entry: Entry, other: Piece | Build, did: str) -> str:
    dated, then = (f"{one.when.astimezone():%d %b %H:%M}" for one in (entry, other))
    return f"dated {dated}, before {other.title} {did} ({then})"
