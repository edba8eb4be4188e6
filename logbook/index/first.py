"""The newest rows for the first paint: one question, with nothing else loaded.

What stands in the index may be behind the files; the records are read right
after, and what they say is shown then.
"""

from __future__ import annotations

import contextlib
import sqlite3
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from typing import NamedTuple

from logbook.errors import Refused
from logbook.index import statements
from logbook.index.opening import (
    connect,
    facts_of,
    is_whole,
    project_name,
    swap_lock,
)
from logbook.store.disk.flushed import locked

SHOWN = "shown "
"""Begins the names of the facts that give a kind's word on screen."""

_NEWEST = (
    "SELECT r.moment, r.id, r.offset_min, k.value, r.title FROM record r "
    "JOIN meta k ON k.name = ? || r.kind "
    "WHERE r.entry = 1 ORDER BY r.key DESC LIMIT ?"
)


class FirstRow(NamedTuple):
    """An entry as the first paint shows it; `kind` is its word on screen."""

    id: str
    when: datetime
    kind: str
    title: str


def first_rows(root: Path, path: Path, limit: int) -> list[FirstRow]:
    """Give the newest entries, oldest first; none where no index will do.

    `path` is the index of the project in `root`. Nothing is built, and nobody is
    waited for.
    """
    if not is_whole(path):
        return []
    try:
        with locked(swap_lock(path), 0):
            db = connect(path)
    except (sqlite3.Error, Refused):
        return []
    with contextlib.closing(db):
        try:
            held = facts_of(db)
            if held.get("schema") != statements.VERSION:
                return []
            if held.get("project") != project_name(root):
                return []
            rows = db.execute(_NEWEST, (SHOWN, limit)).fetchall()
            return [
                FirstRow(identity, instant(moment, offset), kind, title)
                for moment, identity, offset, kind, title in sorted(rows)
            ]
        except (sqlite3.Error, TypeError, ValueError, OverflowError):
            return []


def instant(moment: int, offset_min: int = 0) -> datetime:
    """Give an instant of the index as a time with its offset."""
    when = datetime(1970, 1, 1, tzinfo=UTC) + timedelta(microseconds=moment)
    try:
        return when.astimezone(timezone(timedelta(minutes=offset_min)))
    except OverflowError:
        return when
