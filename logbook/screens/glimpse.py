"""The first rows of a start: the newest records, from the index, before all are read.

The index is only asked which files are the newest; what is shown is read from
the files themselves, so a stale index can at worst show too little.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from logbook.errors import LogbookError, Problem
from logbook.index.catalogue import Index
from logbook.project import Project, repository_of
from logbook.records.model import Entry
from logbook.records.text import read_record
from logbook.store.find import RecordFile

FIRST = 80
"""Records read at once; no screen shows more rows."""


WORTH_AN_INDEX = 500
"""Records from which on reading all of them is felt at a start."""


def index_place(root: Path) -> Path:
    """Give the place of the index of the project in this folder."""
    return Project(root, repository_of(root)).own("index.sqlite")


def newest_entries(root: Path) -> Sequence[Entry]:
    """Give the newest entries, oldest first; none where there is no index yet."""
    try:
        index = Index.open_existing(root, index_place(root))
    except LogbookError:
        return ()
    if index is None:
        return ()
    try:
        paths = [line.path for line in index.newest(FIRST)]
    finally:
        index.close()
    found = []
    for path in reversed(paths):
        data = RecordFile(str(root), path).read()
        record = None if isinstance(data, Problem) else read_record(data, path).record
        if isinstance(record, Entry):
            found.append(record)
    return found


def keep_index(root: Path) -> None:
    """Bring the index up to date, built in a process of its own where there is none."""
    index = Index.open(root, index_place(root))
    try:
        index.bring_up_to_date()
    finally:
        index.close()
