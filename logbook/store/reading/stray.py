"""Records that lie where none is read: beside `project.md`, in no folder of a kind."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from logbook.errors import Problem
from logbook.records.kinds.place import FOLDER, PROJECT_FILE
from logbook.records.kinds.table import path_of
from logbook.records.written.text import read_record
from logbook.store.reading.find import RecordFile


def stray_records(root: Path) -> Iterator[Problem]:
    """Name each record put straight into the records' folder, and where it belongs.

    Other Markdown there, a README, is the user's own.
    """
    for name in sorted(path.name for path in (root / FOLDER).glob("*.md")):
        read = RecordFile(str(root / FOLDER), name).read()
        if name == PROJECT_FILE or isinstance(read, Problem):
            continue
        path = f"{FOLDER}/{name}"
        if (record := read_record(read, path).record) is not None:
            found = "a record that lies in no folder of records, and is not read"
            yield Problem(path, 0, "", found, path_of(record))
