"""What the first screen and the verbs ask the index, in plain SQL."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from logbook.errors import Problem
from logbook.index.first import instant
from logbook.index.rows import SLOTS, moment_of
from logbook.records.kinds.ids import SHORTEST_PREFIX, spoken
from logbook.records.together.names import folded


@dataclass(frozen=True, slots=True)
class Line:
    """A record as one line of a list; `value` is the last value it states, as typed."""

    id: str
    kind: str
    title: str
    part: str
    build: str
    when: datetime
    summary: str
    value: str
    path: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Filter:
    """Which records are asked for.

    `part` and `build` are ids, `since` and `until` instants, both included.
    """

    kind: str = ""
    part: str = ""
    build: str = ""
    entries: bool = False
    since: datetime | None = None
    until: datetime | None = None

    def where(self) -> tuple[str, list[Any]]:
        """Give the condition on the record table `r`, and its values."""
        parts, values = ["1"], []
        for name in ("kind", "part", "build"):
            if wanted := getattr(self, name):
                parts.append(f"r.{name} = ?")
                values.append(wanted)
        if self.entries:
            parts.append("r.entry = 1")
        low, high = self.keys()
        if low is not None:
            assert self.since is not None
            parts.append("r.key >= ? AND r.moment >= ?")
            values += [low, moment_of(self.since)]
        if high is not None:
            assert self.until is not None
            parts.append("r.key <= ? AND r.moment <= ?")
            values += [high, moment_of(self.until)]
        return " AND ".join(parts), values

    def keys(self) -> tuple[int | None, int | None]:
        """Give the lowest and the highest key that can fit."""
        low = _second(self.since) << SLOTS if self.since else None
        high = ((_second(self.until) + 1) << SLOTS) - 1 if self.until else None
        return low, high


ALL = Filter()
ENTRIES = Filter(entries=True)

LINE = (
    "SELECT r.key, r.moment, r.id, r.kind, r.title, coalesce(p.title, ''), "
    "coalesce(b.title, ''), r.offset_min, r.summary, r.value, r.path FROM {source} "
    "LEFT JOIN record p ON p.id = r.part LEFT JOIN record b ON b.id = r.build "
)


def _second(when: datetime) -> int:
    return max(-(2**34), min(2**34, moment_of(when) // 1_000_000))


def newest(db: sqlite3.Connection, wanted: Filter, limit: int) -> list[Line]:
    """Give the newest records that fit, newest first."""
    return newest_of(db, "record r", wanted.where(), limit)


def newest_of(
    db: sqlite3.Connection, source: str, where: tuple[str, list[Any]], limit: int
) -> list[Line]:
    """Give the newest rows of a source that names the record table `r`.

    Keys order by the second; where the last second is cut, all of it is looked
    at and ordered by the exact instant.
    """
    condition, values = where
    asked = f"{LINE.format(source=source)} WHERE {condition} "
    end = "ORDER BY r.key DESC LIMIT ?" if "search" not in source else ""
    end = end or "ORDER BY search.rowid DESC LIMIT ?"
    rows = db.execute(asked + end, (*values, limit)).fetchall()
    if len(rows) == limit and limit:
        last = rows[-1][0]
        rest = "AND r.key >= ? AND r.key < ?"
        rows += db.execute(asked + rest, (*values, last >> SLOTS << SLOTS, last))
    rows.sort(key=lambda row: (row[1], row[2]), reverse=True)
    return [line_of(row) for row in rows[:limit]]


def line_of(row: tuple[Any, ...]) -> Line:
    """Make a line of a row of `LINE`."""
    _, moment, identity, kind, title, part, build, offset, *rest = row
    when = instant(moment, offset)
    return Line(identity, kind, title, part, build, when, *rest)


def counts(db: sqlite3.Connection) -> dict[str, int]:
    """Give how many records there are of each kind."""
    return dict(db.execute("SELECT kind, count(*) FROM record GROUP BY kind"))


def unit(db: sqlite3.Connection) -> str:
    """Give the unit of the project; empty where no project is on record."""
    asked = "SELECT value FROM record WHERE kind = 'project' ORDER BY key LIMIT 1"
    row = db.execute(asked).fetchone()
    return row[0] if row else ""


def by_prefix(db: sqlite3.Connection, typed: str, limit: int = 12) -> list[Line]:
    """Give the records whose id begins as typed, at least 4 characters."""
    key = spoken(typed)
    if len(key) < SHORTEST_PREFIX:
        return []
    where = ("r.id >= ? AND r.id < ?", [key, key + "\U0010ffff"])
    return newest_of(db, "record r", where, limit)


def called(db: sqlite3.Connection, typed: str, kind: str) -> list[Line]:
    """Give the records of a kind that are called so: now, else formerly, else by id."""
    name = (
        "r.kind = ? AND r.id IN (SELECT record FROM name WHERE name = ? AND now >= ?)"
    )
    for now in (1, 0):
        where = (name, [kind, folded(typed), now])
        if found := newest_of(db, "record r", where, 12):
            return found
    return [line for line in by_prefix(db, typed) if line.kind == kind]


def mentions(db: sqlite3.Connection, identity: str) -> list[Line]:
    """Give the records that refer to this one, oldest first."""
    where = "r.id IN (SELECT record FROM mention WHERE target = ?)"
    return newest_of(db, "record r", (where, [identity]), 2**31)[::-1]


def problems(db: sqlite3.Connection) -> Iterator[Problem]:
    """Give what was wrong in single files, by path."""
    asked = "SELECT path, line, field, found, accepted FROM problem ORDER BY 1, number"
    for row in db.execute(asked):
        yield Problem(*row)
