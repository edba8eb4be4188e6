"""Filling an empty index from all files in one go.

Rows are inserted in the order of their keys, indexes and full text come at the
end. What one record says of another is worked out from everything in memory.
"""

from __future__ import annotations

import sqlite3
from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

from logbook.index import statements
from logbook.index.derive import WALKED, Link, build_of, mention_row, part_of, target_of
from logbook.index.reading import Read, look, proven, read_file
from logbook.index.rows import (
    SLOTS,
    Mentioned,
    key_of,
    place_terms,
    reading_rows,
    record_row,
    rows_of,
)
from logbook.records.kinds import FOLDER
from logbook.store.find import record_files

EVERY = 2000
"""Files between two words of progress."""

Progress = Callable[[int, int], None]
PART = statements.COLUMNS["record"].index("part")
BUILD = statements.COLUMNS["record"].index("build")
KIND = statements.COLUMNS["record"].index("kind")
ID = statements.COLUMNS["record"].index("id")


class Whole:
    """All rows of a project in memory; the web that derives from them."""

    def __init__(self) -> None:
        self.files: list[tuple[Any, ...]] = []
        self.problems: list[tuple[Any, ...]] = []
        self.records: list[tuple[Any, ...]] = []
        self.readings: list[tuple[Any, ...]] = []
        self.kinds: dict[str, str] = {}
        self.names: dict[str, list[tuple[str, bool]]] = defaultdict(list)
        self.mentions: dict[str, tuple[Mentioned, ...]] = {}
        self._links: dict[str, list[Link]] = {}

    def take(self, read: Read) -> None:
        """Take a file in; files come by path, the first with an id has its record."""
        self.files.append(read.file_row())
        self.problems += read.problem_rows()
        record = read.parsed.record
        if record is None or record.id in self.kinds:
            return
        rows = rows_of(record, read.path)
        self.kinds[record.id] = rows.kind
        for name, now in rows.names:
            self.names[name].append((record.id, now))
        self.mentions[record.id] = rows.mentions
        self.records.append(record_row(rows, key_of(record), "", ""))
        self.readings += reading_rows(record)

    def kind(self, identity: str) -> str:
        """Give the kind of a record."""
        return self.kinds.get(identity, "")

    def called(self, name: str) -> Sequence[tuple[str, bool]]:
        """Give who answers to a name."""
        return self.names.get(name, ())

    def links(self, identity: str) -> Sequence[Link]:
        """Give the walked references of a record."""
        if identity not in self._links:
            self._links[identity] = [
                Link(m.field, m.ref.id, m.name, target_of(self, m.ref.id, m.name))
                for m in self.mentions.get(identity, ())
                if m.field in WALKED
            ]
        return self._links[identity]

    def finished(self) -> list[tuple[Any, ...]]:
        """Give the record rows with part and build, by key, no key twice."""
        taken = -(2**63)
        made: list[tuple[Any, ...]] = []
        for row in sorted(self.records):
            key = max(row[0], taken + 1)
            if key >> SLOTS != row[0] >> SLOTS:
                key = self._free(row[0], made)
            else:
                taken = key
            part, build = part_of(self, row[ID]), build_of(self, row[ID])
            terms = place_terms(row[KIND], part, build)
            made.append((key, *row[1:PART], part, build, *row[BUILD + 1 : -1], terms))
        return made

    @staticmethod
    def _free(key: int, made: list[tuple[Any, ...]]) -> int:
        """Give a free key of the same second, where its end is used up."""
        used = {row[0] for row in made if row[0] >> SLOTS == key >> SLOTS}
        return next(k for k in range(key >> SLOTS << SLOTS, key) if k not in used)


def fill(db: sqlite3.Connection, root: Path, progress: Progress | None = None) -> None:
    """Make tables and rows of everything below `root`, in one transaction."""
    paths = [f"{FOLDER}/{path}" for path in record_files(root / FOLDER)]
    folders = folder_rows(root, paths)
    whole = Whole()
    for number, path in enumerate(paths):
        if progress and number % EVERY == 0:
            progress(number, len(paths))
        read = read_file(root, path)
        if read is not None:
            whole.take(read)
    if progress:
        progress(len(paths), len(paths))
    db.execute("BEGIN IMMEDIATE")
    _make(db, statements.CREATE)
    insert(db, "folder", folders)
    insert(db, "file", whole.files)
    insert(db, "problem", whole.problems)
    insert(db, "record", whole.finished())
    insert(db, "reading", whole.readings)
    insert(db, "name", _name_rows(whole))
    for record, mentions in whole.mentions.items():
        rows = [mention_row(whole, record, n, one) for n, one in enumerate(mentions)]
        insert(db, "mention", rows)
    _make(db, (*statements.INDEXES, statements.CREATE_SEARCH, statements.FILL_SEARCH))
    db.execute("COMMIT")


def _make(db: sqlite3.Connection, commands: Iterable[str]) -> None:
    for command in commands:
        db.execute(command)


def insert(db: sqlite3.Connection, table: str, rows: Iterable[tuple[Any, ...]]) -> None:
    """Insert rows into a table."""
    db.executemany(statements.INSERT[table], rows)


def _name_rows(whole: Whole) -> Iterable[tuple[str, str, int]]:
    for name in sorted(whole.names):
        for identity, now in sorted(whole.names[name]):
            yield name, identity, int(now)


def folder_rows(root: Path, paths: Iterable[str]) -> list[tuple[Any, ...]]:
    """Give the rows of the folders that hold these files, and of those above."""
    import time

    folders = {FOLDER}
    for folder in {path.rpartition("/")[0] for path in paths}:
        above = folder
        while above not in folders:
            folders.add(above)
            above = above.rpartition("/")[0]
    now = time.time_ns()
    rows = []
    for folder in sorted(folders):
        seen = look(root, folder)
        if seen is not None:
            rows.append((folder, *proven(seen, now)[1:]))
    return rows
