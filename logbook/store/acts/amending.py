"""What is written when a record on file becomes another, or goes: only what differs."""

from __future__ import annotations

from dataclasses import replace

from logbook.errors import ChangedMeanwhile
from logbook.records.kinds.happenings import Run
from logbook.records.kinds.record import Record
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.edit import edit_record, with_reading
from logbook.records.written.text import digest
from logbook.store.acts.ledger import Ledger
from logbook.store.disk.save import Write


def amended(snapshot: Snapshot, ledger: Ledger, record: Record) -> Write:
    """Give the write that turns the record of this id in `snapshot` into this one.

    Raises:
        ChangedMeanwhile: its file is not what was read.
    """
    path, data, before = _as_read(snapshot, ledger, record)
    old = snapshot[record.id]
    if isinstance(record, Run) and record == _one_more(old, record):
        return Write(path, with_reading(data, record.readings[-1], path), before)
    return Write(path, edit_record(data, record, path), before)


def dropped(snapshot: Snapshot, ledger: Ledger, record: Record) -> Write:
    """Give the write that takes the record of this id away.

    Raises:
        ChangedMeanwhile: its file is not what was read.
    """
    path, _, before = _as_read(snapshot, ledger, record)
    return Write(path, None, before)


def _as_read(
    snapshot: Snapshot, ledger: Ledger, record: Record
) -> tuple[str, bytes, str]:
    """Give the path of a record, its file and the digest, if that is what was read."""
    path = snapshot.path(record)
    data = ledger.content(path)
    before = snapshot.stored[record.id].sha256
    if digest(data) != before:
        raise ChangedMeanwhile(
            f"{path} was changed by someone else since it was read; "
            "nothing was overwritten"
        )
    return path, data, before


def _one_more(old: Record, run: Run) -> Record:
    """Give the run as it was before, with the last of these readings at its end."""
    if not isinstance(old, Run) or not run.readings:
        return old
    return replace(old, readings=(*old.readings, run.readings[-1]))
