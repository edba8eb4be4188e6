"""The file the index lies in: whether it is whole, whose it is, connecting to it.

The first paint asks here, so nothing that reads records is loaded.
"""

from __future__ import annotations

import contextlib
import os
import sqlite3
from collections.abc import Mapping
from pathlib import Path

PATIENCE_S = 30.0
"""How long one program waits for another that writes, seconds."""

_HEADER = 100


def connect(path: Path) -> sqlite3.Connection:
    """Connect to a database file as the index uses it."""
    db = sqlite3.connect(
        path, timeout=PATIENCE_S, isolation_level=None, check_same_thread=False
    )
    db.execute("PRAGMA journal_mode = WAL")
    db.execute("PRAGMA synchronous = NORMAL")
    db.execute("PRAGMA mmap_size = 0")
    return db


def facts_of(db: sqlite3.Connection) -> Mapping[str, str]:
    """Give what the index says of itself: version, schema, project, base commit."""
    return dict(db.execute("SELECT name, value FROM meta").fetchall())


def project_name(root: Path) -> str:
    """Name the project an index belongs to."""
    return os.path.realpath(root)


def beside(path: Path, ending: str) -> Path:
    """Give the place of a file that goes with the database."""
    return path.with_name(path.name + ending)


def swap_lock(path: Path) -> Path:
    """Give the lock held while the file is put in place, and while it is opened."""
    return beside(path, ".swap")


def is_whole(path: Path) -> bool:
    """Tell whether it is a database file as long as its own header says."""
    with contextlib.suppress(OSError), path.open("rb") as file:
        head = file.read(_HEADER)
        if len(head) < _HEADER or not head.startswith(b"SQLite format 3\0"):
            return False
        size = int.from_bytes(head[16:18], "big")
        pages = int.from_bytes(head[28:32], "big")
        return path.stat().st_size >= (65536 if size == 1 else size) * pages
    return False
