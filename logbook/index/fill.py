"""Filling an empty index from all files in one go.

Rows are inserted in the order of their keys, indexes and full text come at the
end. What one record says of another is worked out from everything in memory.
"""

from __future__ import annotations

import gc
import sqlite3
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import repeat
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from logbook.index import statements
from logbook.index.derive import WALKED, Link, build_of, mention_row, part_of, target_of
from logbook.index.folders import walked
from logbook.index.reading import Read, read_file
from logbook.index.rows import (
    SLOTS,
    Mentioned,
    key_of,
    place_terms,
    reading_rows,
    record_row,
    rows_of,
)

if TYPE_CHECKING:
    from concurrent.futures import ProcessPoolExecutor

EVERY = 2000
"""Files between two words of progress."""

Progress = Callable[[int, int], None]
PART = statements.COLUMNS["record"].index("part")
BUILD = statements.COLUMNS["record"].index("build")
KIND = statements.COLUMNS["record"].index("kind")
ID = statements.COLUMNS["record"].index("id")


class Found(NamedTuple):
    """What the index keeps of one file, in a form that crosses processes quickly."""

    file: tuple[Any, ...]
    problems: list[tuple[Any, ...]]
    record: tuple[Any, ...] | None = None
    names: tuple[tuple[str, bool], ...] = ()
    mentions: tuple[Mentioned, ...] = ()
    readings: Sequence[tuple[Any, ...]] = ()


def found_in(read: Read) -> Found:
    """Give the rows of a file that was read."""
    file, problems = read.file_row(), list(read.problem_rows())
    record = read.parsed.record
    if record is None:
        return Found(file, problems)
    rows = rows_of(record, read.path)
    row = record_row(rows, key_of(record), "", "")
    readings = list(reading_rows(record))
    return Found(file, problems, row, rows.names, rows.mentions, readings)


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

    def take(self, found: Found) -> None:
        """Take a file in; files come by path, the first with an id has its record."""
        self.files.append(found.file)
        self.problems += found.problems
        if found.record is None:
            return
        identity = found.record[ID]
        if identity in self.kinds:
            return
        self.kinds[identity] = found.record[KIND]
        for name, now in found.names:
            self.names[name].append((identity, now))
        self.mentions[identity] = found.mentions
        self.records.append(found.record)
        self.readings += found.readings

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
                Link(*m, target_of(self, m.to_id, m.to_name))
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


def fill(
    db: sqlite3.Connection,
    root: Path,
    progress: Progress | None = None,
    hands: int = 1,
) -> None:
    """Make tables and rows of everything below `root`, in one transaction.

    Where there is much to read, `hands` processes read it.
    """
    names = walked(root)
    paths = sorted(names.came)
    whole = Whole()
    several = [paths[at : at + EVERY] for at in range(0, len(paths), EVERY)]
    for number, some in enumerate(_read(root, several, hands)):
        if progress:
            progress(number * EVERY, len(paths))
        for found in some:
            whole.take(found)
    if progress:
        progress(len(paths), len(paths))
    db.execute("BEGIN IMMEDIATE")
    _make(db, statements.CREATE)
    insert(db, "folder", names.listed)
    insert(db, "file", whole.files)
    insert(db, "problem", whole.problems)
    insert(db, "record", whole.finished())
    insert(db, "reading", whole.readings)
    insert(db, "name", _name_rows(whole))
    insert(db, "mention", _mention_rows(whole))
    _make(db, (*statements.INDEXES, statements.CREATE_SEARCH, statements.FILL_SEARCH))
    db.execute("COMMIT")


def _read(root: Path, several: list[list[str]], hands: int) -> Iterator[list[Found]]:
    pool = _pool(hands) if hands > 1 and len(several) > 1 else None
    if pool is None:
        yield from map(read_some, repeat(root), several)
        return
    with pool:
        yield from pool.map(read_some, repeat(root), several)


def _pool(hands: int) -> ProcessPoolExecutor | None:
    from concurrent.futures import ProcessPoolExecutor

    try:
        return ProcessPoolExecutor(hands, initializer=gc.disable)
    except (ImportError, NotImplementedError, OSError):  # no semaphores here
        return None


def read_some(root: Path, paths: Iterable[str]) -> list[Found]:
    """Read these files."""
    read = (read_file(root, path) for path in paths)
    return [found_in(one) for one in read if one is not None]


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


def _mention_rows(whole: Whole) -> Iterator[tuple[object, ...]]:
    for record, mentions in whole.mentions.items():
        for number, one in enumerate(mentions):
            yield mention_row(whole, record, number, one)
