"""Reading all records of a project into a snapshot."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from logbook.errors import Problem
from logbook.records.kinds import FOLDER
from logbook.records.snapshot import Snapshot, make_snapshot
from logbook.records.text import Parsed, digest, read_record
from logbook.store.find import records


def read_project(root: Path) -> Snapshot:
    """Read every record below `root`/as-built; problems are in the snapshot."""
    files = []
    for file in records(root / FOLDER):
        path = f"{FOLDER}/{file.path}"
        data = file.read()
        if isinstance(data, Problem):
            files.append((path, "", Parsed(None, (replace(data, file=path),))))
        else:
            files.append((path, digest(data), read_record(data, path)))
    return make_snapshot(files)
