"""Taking changed files into the index, one or many, in one transaction.

A changed record can change what others say: where a name leads, which part a
piece belongs to. Those are found by their references and written again, and no
others.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Collection, Container, Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from logbook.index import statements
from logbook.index.derive import (
    WALKED,
    Link,
    build_of,
    mention_row,
    part_of,
    target_of,
)
from logbook.index.fill import insert
from logbook.index.reading import Read, read_file
from logbook.index.rows import (
    SLOTS,
    Rows,
    key_of,
    place_terms,
    reading_rows,
    record_row,
    rows_of,
)

_FIELDS = ", ".join(f"'{name}'" for name in sorted(WALKED))
_TERMS = "key, title_terms, body_terms, place_terms"


class Stored:
    """The web of the records as the database holds it, with a memory of its own."""

    def __init__(self, db: sqlite3.Connection) -> None:
        self.db = db
        self.kinds: dict[str, str] = {}

    def kind(self, identity: str) -> str:
        """Give the kind of a record."""
        if identity not in self.kinds:
            row = self.db.execute("SELECT kind FROM record WHERE id = ?", (identity,))
            found = row.fetchone()
            self.kinds[identity] = found[0] if found else ""
        return self.kinds[identity]

    def called(self, name: str) -> Sequence[tuple[str, bool]]:
        """Give who answers to a name."""
        asked = "SELECT record, now FROM name WHERE name = ?"
        return [(row[0], bool(row[1])) for row in self.db.execute(asked, (name,))]

    def links(self, identity: str) -> Sequence[Link]:
        """Give the walked references of a record."""
        asked = (
            "SELECT field, to_id, to_name, target FROM mention "  # noqa: S608
            f"WHERE record = ? AND field IN ({_FIELDS}) ORDER BY number"
        )
        return [Link(*row) for row in self.db.execute(asked, (identity,))]


@dataclass(slots=True)
class _Before:
    """What a record was to others before the change."""

    kind: str
    names: set[tuple[str, bool]]
    links: Sequence[Link]


@dataclass(slots=True)
class _Work:
    """An amendment under way: files read, ids touched, and what these were."""

    db: sqlite3.Connection
    web: Stored
    read: dict[str, Read] = field(default_factory=dict)
    before: dict[str, _Before] = field(default_factory=dict)
    now: dict[str, Rows] = field(default_factory=dict)


def amend(
    db: sqlite3.Connection, root: Path, reads: Iterable[Read], gone: Collection[str]
) -> tuple[str, ...]:
    """Take files that were read, and files that are gone; give the ids touched."""
    work = _Work(db, Stored(db))
    db.execute("BEGIN IMMEDIATE")
    try:
        touched = _file_rows(work, root, list(reads), list(gone))
        _replace_records(work, touched)
        affected = _retarget(work)
        _derive(work, affected)
    except BaseException:
        db.execute("ROLLBACK")
        raise
    db.execute("COMMIT")
    return tuple(sorted(touched))


# -- files -----------------------------------------------------------------------


def _file_rows(
    work: _Work, root: Path, reads: list[Read], gone: list[str]
) -> dict[str, str]:
    """Write the file rows; give each id whose record changes, with its new path.

    Of two files with one id the first by path counts; where that is another one
    than before, it is read too.
    """
    touched: dict[str, str] = {}
    while reads or gone:
        dirty: set[str] = set()
        for path in gone:
            dirty.add(_forget(work, path))
        for read in reads:
            dirty |= _take(work, read)
        insert(work.db, "file", [read.file_row() for read in reads])
        rows = (row for read in reads for row in read.problem_rows())
        insert(work.db, "problem", rows)
        reads, gone = [], []
        for identity in dirty - {""}:
            path = _standing(work, identity)
            touched[identity] = path
            if path and path not in work.read:
                again = read_file(root, path)
                if again is None:
                    gone.append(path)
                else:
                    reads.append(again)
    return touched


def _forget(work: _Work, path: str) -> str:
    held = work.db.execute("SELECT record FROM file WHERE path = ?", (path,)).fetchone()
    work.db.execute("DELETE FROM file WHERE path = ?", (path,))
    work.db.execute("DELETE FROM problem WHERE path = ?", (path,))
    work.read.pop(path, None)
    return held[0] if held else ""


def _take(work: _Work, read: Read) -> set[str]:
    """Give the ids a file touches, none where only times differ; its problems go."""
    asked = "SELECT sha256, record FROM file WHERE path = ?"
    held = work.db.execute(asked, (read.path,)).fetchone()
    first = read.path not in work.read
    work.read[read.path] = read
    if held:
        work.db.execute("DELETE FROM problem WHERE path = ?", (read.path,))
    if held and held[0] == read.sha256 and read.sha256 and first:
        stands = "SELECT 1 FROM record WHERE id = ? AND path = ?"
        same = work.db.execute(stands, (read.record_id, read.path))
        if not read.record_id or same.fetchone():
            return set()
    return {read.record_id, held[1] if held else ""}


def _standing(work: _Work, identity: str) -> str:
    asked = "SELECT min(path) FROM file WHERE record = ?"
    found = work.db.execute(asked, (identity,)).fetchone()
    return found[0] or ""


# -- records ---------------------------------------------------------------------


def _replace_records(work: _Work, touched: dict[str, str]) -> None:
    for identity in touched:
        kind = work.web.kind(identity)
        if not kind:  # a new one: nothing is kept of it
            work.before[identity] = _Before("", set(), ())
            continue
        names, links = _names(work, identity), work.web.links(identity)
        work.before[identity] = _Before(kind, names, links)
        _remove(work, identity)
    names_now: list[tuple[Any, ...]] = []
    readings: list[tuple[Any, ...]] = []
    for identity, path in touched.items():
        record = work.read[path].parsed.record if path else None
        work.web.kinds[identity] = ""
        if record is not None:
            rows = rows_of(record, path)
            work.now[identity] = rows
            work.web.kinds[identity] = rows.kind
            names_now += [(name, identity, int(now)) for name, now in rows.names]
            readings += reading_rows(record)
    insert(work.db, "name", names_now)
    insert(work.db, "reading", readings)
    mentions = (
        mention_row(work.web, identity, number, one)
        for identity, rows in work.now.items()
        for number, one in enumerate(rows.mentions)
    )
    insert(work.db, "mention", [*mentions])


def _names(work: _Work, identity: str) -> set[tuple[str, bool]]:
    asked = "SELECT name, now FROM name WHERE record = ?"
    return {(row[0], bool(row[1])) for row in work.db.execute(asked, (identity,))}


def _remove(work: _Work, identity: str) -> None:
    asked = f"SELECT {_TERMS} FROM record WHERE id = ?"  # noqa: S608
    for row in work.db.execute(asked, (identity,)).fetchall():
        work.db.execute(statements.DROP_SEARCH, row)
    work.db.execute("DELETE FROM record WHERE id = ?", (identity,))
    for table in ("name", "mention", "reading"):
        work.db.execute(f"DELETE FROM {table} WHERE record = ?", (identity,))  # noqa: S608


# -- what others say -------------------------------------------------------------


def _retarget(work: _Work) -> set[str]:
    """Lead references anew; give the records whose part or build may be another."""
    moved = _moved_mentions(work)
    for identity, before in work.before.items():
        same_kind = before.kind == work.web.kind(identity)
        if not same_kind or list(before.links) != list(work.web.links(identity)):
            moved.add(identity)
    affected, waiting = set(work.now) | moved, list(moved)
    asked = (
        "SELECT DISTINCT record FROM mention "  # noqa: S608
        f"WHERE target = ? AND field IN ({_FIELDS})"
    )
    seen = set(waiting)
    while waiting:
        for (source,) in work.db.execute(asked, (waiting.pop(),)).fetchall():
            affected.add(source)
            if source not in seen:
                seen.add(source)
                waiting.append(source)
    return affected


def _moved_mentions(work: _Work) -> set[str]:
    """Write the references that lead elsewhere now; give whose walk that changes."""
    moved: set[str] = set()
    asked = "SELECT record, number, field, to_id, to_name, target FROM mention WHERE "
    found: list[tuple[Any, ...]] = []
    names: set[str] = set()
    for identity, before in work.before.items():
        kind = work.web.kind(identity)
        after = set(work.now[identity].names) if identity in work.now else set()
        if kind != before.kind:
            found += work.db.execute(asked + "to_id = ?", (identity,)).fetchall()
            names |= {name for name, _ in before.names | after}
        names |= {name for name, _ in before.names ^ after}
    for name in names:
        where = "to_name = ? AND to_id = ''"
        found += work.db.execute(asked + where, (name,)).fetchall()
    for record, number, field_, to_id, to_name, old in found:
        target = target_of(work.web, to_id, to_name)
        if target != old:
            change = "UPDATE mention SET target = ? WHERE record = ? AND number = ?"
            work.db.execute(change, (target, record, number))
        if field_ in WALKED:
            moved.add(record)
    return moved


def _derive(work: _Work, affected: set[str]) -> None:
    new: dict[int, tuple[Any, ...]] = {}
    for identity in affected:
        part, build = part_of(work.web, identity), build_of(work.web, identity)
        if identity in work.now:
            rows = work.now[identity]
            key = _free_key(work.db, key_of(rows.record), new)
            new[key] = record_row(rows, key, part, build)
        elif work.web.kind(identity):
            _place(work, identity, part, build)
    by_key = [new[key] for key in sorted(new)]
    insert(work.db, "record", by_key)
    found = [(row[0], *row[-3:]) for row in by_key]
    work.db.executemany(statements.ADD_SEARCH, found)


def _free_key(db: sqlite3.Connection, key: int, taken: Container[int]) -> int:
    """Give the key itself, or the next of the same second neither kept nor taken."""
    second, mask = key >> SLOTS << SLOTS, (1 << SLOTS) - 1
    asked = "SELECT 1 FROM record WHERE key = ?"
    while key in taken or db.execute(asked, (key,)).fetchone():
        key = second | ((key + 1) & mask)
    return key


def _place(work: _Work, identity: str, part: str, build: str) -> None:
    asked = f"SELECT {_TERMS}, kind, part, build FROM record WHERE id = ?"  # noqa: S608
    row = work.db.execute(asked, (identity,)).fetchone()
    if row is None or row[-2:] == (part, build):
        return
    key, title, body, _old, kind = row[:5]
    terms = place_terms(kind, part, build)
    work.db.execute(statements.DROP_SEARCH, row[:4])
    change = "UPDATE record SET part = ?, build = ?, place_terms = ? WHERE key = ?"
    work.db.execute(change, (part, build, terms, key))
    work.db.execute(statements.ADD_SEARCH, (key, title, body, terms))
