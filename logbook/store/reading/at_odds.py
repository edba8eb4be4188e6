"""Writes that would leave records at odds with each other are refused before."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.errors import Refused
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.spread import with_changes
from logbook.records.together.succession import next_snapshot
from logbook.records.written.text import digest, read_record
from logbook.store.disk.save import Write
from logbook.store.reading.find import is_record
from logbook.store.reading.records import Files


def refuse_at_odds(snapshot: Snapshot, files: Files, writes: Sequence[Write]) -> None:
    """Refuse to bring records back that would not agree with those on file.

    One may name what is gone by now, or be called as another one is.

    Raises:
        Refused: they would not.
    """
    own = [write for write in writes if is_record(write.path)]
    fresh = {
        write.path: (digest(write.data), read_record(write.data, write.path))
        for write in own
        if write.data is not None
    }
    gone = [write.path for write in own if write.data is None and write.path in files]
    after = with_changes(files, gone, fresh)
    paths = [write.path for write in own]
    for problem in next_snapshot(snapshot, files, after, paths).problems:
        if problem not in snapshot.problems:
            raise Refused(
                f"it stays taken back, for it is at odds with what was logged since: "
                f"{problem}"
            )
