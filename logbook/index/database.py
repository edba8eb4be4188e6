"""The file the index is: opening it, telling whether it will do, changing it whole.

It is made beside, flushed once and renamed, while a lock keeps others from
opening it: a database renamed under a reader keeps its old write-ahead file.
"""

from __future__ import annotations

import contextlib
import dataclasses
import os
import sqlite3
from collections.abc import Iterator
from functools import cache
from hashlib import sha256
from pathlib import Path

from logbook.errors import Refused
from logbook.index import statements
from logbook.index.fill import Progress, fill, insert
from logbook.index.first import SHOWN
from logbook.index.opening import (
    PATIENCE_S,
    beside,
    connect,
    facts_of,
    is_whole,
    project_name,
    swap_lock,
)
from logbook.records.kinds.table import KINDS
from logbook.records.written.text import FORMAT
from logbook.store.disk.flushed import flush, flush_folder, locked

BUILDING = ".building"


@cache
def version() -> str:
    """Name what the rows are: the schema, their meaning, and what records can say."""
    made = sha256(f"{statements.VERSION} {FORMAT}".encode())
    for word, kind in KINDS.items():
        names = [field.name for field in dataclasses.fields(kind.type)]
        made.update(f"{word} {kind.shown} {' '.join(names)}\n".encode())
    return made.hexdigest()[:16]


def open_database(root: Path, path: Path) -> sqlite3.Connection | None:
    """Open the index; None if it is missing, old, damaged or another project's."""
    if not is_whole(path):
        return None
    db = None
    try:
        with locked(swap_lock(path), PATIENCE_S):
            db = connect(path)
            held = facts_of(db)
            db.execute("SELECT rowid FROM search LIMIT 1").fetchone()
    except (sqlite3.Error, Refused):
        held = {}
    if held.get("version") == version() and held.get("project") == project_name(root):
        return db
    if db is not None:
        db.close()
    return None


def in_memory(root: Path, progress: Progress | None = None) -> sqlite3.Connection:
    """Build an index in memory, where none can be written."""
    db = sqlite3.connect(":memory:", isolation_level=None, check_same_thread=False)
    _fill(db, root, progress)
    return db


def _fill(
    db: sqlite3.Connection, root: Path, progress: Progress | None, hands: int = 1
) -> None:
    fill(db, root, progress, hands)
    facts = {
        "version": version(),
        "schema": statements.VERSION,
        "project": project_name(root),
        **{SHOWN + word: kind.shown for word, kind in KINDS.items()},
    }
    insert(db, "meta", facts.items())


def build(
    root: Path, path: Path, progress: Progress | None = None, hands: int = 1
) -> bool:
    """Build the index anew, unless another program did so while we waited.

    `hands` processes read the files.

    Raises:
        OSError, sqlite3.Error, Refused: it cannot be written there.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    with locked(beside(path, ".build"), patience_s=600):
        there = open_database(root, path)
        if there is not None:
            there.close()
            return False
        made = beside(path, f"{BUILDING}-{os.getpid()}")
        try:
            _build_beside(root, made, progress, hands)
            with locked(swap_lock(path), PATIENCE_S):
                _put_in_place(made, path)
        finally:
            made.unlink(missing_ok=True)
    return True


def _build_beside(
    root: Path, made: Path, progress: Progress | None, hands: int
) -> None:
    for old in made.parent.glob(f"*{BUILDING}-*"):
        old.unlink(missing_ok=True)
    with contextlib.closing(sqlite3.connect(made, isolation_level=None)) as db:
        db.execute("PRAGMA journal_mode = OFF")
        db.execute("PRAGMA synchronous = OFF")
        db.execute("PRAGMA cache_size = -64000")
        _fill(db, root, progress, hands)
    with made.open("rb+") as file:
        flush(file.fileno())


def _put_in_place(made: Path, path: Path) -> None:
    for ending in ("-wal", "-shm", "-journal"):
        beside(path, ending).unlink(missing_ok=True)
    made.replace(path)
    flush_folder(path.parent)


@contextlib.contextmanager
def reading(db: sqlite3.Connection) -> Iterator[sqlite3.Connection]:
    """Hold one state of the database for several questions."""
    db.execute("BEGIN")
    try:
        yield db
    finally:
        db.execute("ROLLBACK" if db.in_transaction else "SELECT 1")
