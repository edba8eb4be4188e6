"""Whether entries alone have put a record there, so that it goes with them."""

from __future__ import annotations

from collections.abc import Iterable

from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.record import Record
from logbook.records.together.snapshot import Snapshot


def made_by_alone(snapshot: Snapshot, entries: Iterable[Entry], record: Record) -> bool:
    """Tell whether a record came with these entries, and nothing else names it."""
    ids = {one.id for one in entries}
    instants = {one.when for one in entries}
    others = (one for one in snapshot.mentions(record) if one.id not in ids)
    return record.when in instants and not any(others)
