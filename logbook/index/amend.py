"""Taking changed files into the index, one or many, in one transaction.

A changed record can change what others say: where a name leads, which part a
piece belongs to. Those are found by their references and written again
(`moved`), and no others; of the record itself only what is other than before.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Collection, Iterable
from dataclasses import dataclass, field
from pathlib import Path

from logbook.index import statements
from logbook.index.derive import build_of, mention_row, part_of
from logbook.index.fill import insert
from logbook.index.moved import moved_by, place_anew
from logbook.index.reading import Read, Seen, read_file
from logbook.index.rows import SLOTS, Rows, key_of, reading_rows, record_row, rows_of
from logbook.index.stored import (
    BUILD,
    KEY,
    PART,
    Kept,
    Row,
    Stored,
    asked_of,
    found_by,
    kept_of,
)

_NEW = Kept()

Change = tuple[list[Row], list[Row]]
"""Rows of a record before and now."""


@dataclass(frozen=True, slots=True)
class Amended:
    """What was taken in: the ids touched, and the files with their signatures now."""

    touched: tuple[str, ...] = ()
    files: tuple[tuple[str, Seen | None], ...] = ()


@dataclass(slots=True)
class _Work:
    """An amendment under way: what was read, what was kept, and what is now."""

    db: sqlite3.Connection
    web: Stored
    read: dict[str, Read] = field(default_factory=dict)
    seen: dict[str, Seen | None] = field(default_factory=dict)
    kept: dict[str, Kept] = field(default_factory=dict)
    now: dict[str, Rows] = field(default_factory=dict)


def amend(
    db: sqlite3.Connection, root: Path, reads: Iterable[Read], gone: Collection[str]
) -> Amended:
    """Take in files that were read, and files that are gone."""
    work = _Work(db, Stored(db))
    db.execute("BEGIN IMMEDIATE")
    try:
        touched = _file_rows(work, root, list(reads), list(gone))
        mentions = _replace_records(work, touched)
        changed = [i for i, (before, now) in mentions.items() if before != now]
        others = moved_by(db, work.web, work.kept, work.now, changed)
        work.web.moved({i: now for i, (_, now) in mentions.items()})
        _derive(work, others)
        place_anew(db, work.web, others - work.now.keys())
    except BaseException:
        db.execute("ROLLBACK")
        raise
    db.execute("COMMIT")
    return Amended(tuple(sorted(touched)), tuple(work.seen.items()))


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
        dirty = _files_written(work, reads, gone)
        reads, gone = [], []
        standing = "SELECT record, path FROM file WHERE record IN"
        paths: dict[str, str] = {}
        for identity, path in asked_of(work.db, standing, dirty):
            paths[identity] = min(path, paths.get(identity, path))
        for identity in dirty:
            path = touched[identity] = paths.get(identity, "")
            if path and path not in work.read:
                again = read_file(root, path)
                if again is None:
                    gone.append(path)
                else:
                    reads.append(again)
    return touched


def _files_written(work: _Work, reads: list[Read], gone: list[str]) -> set[str]:
    """Write the rows of these files; give the ids they touch."""
    asked = "SELECT path, sha256, record FROM file WHERE path IN"
    paths = [*gone, *(read.path for read in reads)]
    held = {row[0]: row[1:] for row in asked_of(work.db, asked, paths)}
    asked = "SELECT id, path FROM record WHERE id IN"
    stand = {*asked_of(work.db, asked, {read.record_id for read in reads} - {""})}
    dirty = {held[path][1] for path in gone if path in held}
    for read in reads:
        sha256, record = held.get(read.path, ("", ""))
        first = read.path not in work.read
        work.read[read.path] = read
        work.seen[read.path] = read.seen
        stands = not read.record_id or (read.record_id, read.path) in stand
        if not (first and stands and read.sha256 and read.sha256 == sha256):
            dirty |= {read.record_id, record}
    for path in gone:
        work.read.pop(path, None)
        work.seen[path] = None
    known = [(path,) for path in held]
    work.db.executemany("DELETE FROM problem WHERE path = ?", known)
    lost = ((path,) for path in gone)
    work.db.executemany("DELETE FROM file WHERE path = ?", lost)
    insert(work.db, "file", [read.file_row() for read in reads])
    insert(work.db, "problem", (row for read in reads for row in read.problem_rows()))
    return dirty - {""}


# -- records ---------------------------------------------------------------------


def _replace_records(work: _Work, touched: dict[str, str]) -> dict[str, Change]:
    """Write names, readings and references; give the references before and now."""
    work.kept = kept_of(work.db, touched)
    work.web.kinds = dict.fromkeys(touched, "")
    for identity, path in touched.items():
        record = work.read[path].parsed.record if path else None
        if record is not None:
            rows = work.now[identity] = rows_of(record, path)
            work.web.kinds[identity] = rows.kind
    _write(work, "name", {i: _names(work, i) for i in touched})
    _write(work, "reading", {i: _readings(work, i) for i in touched})
    # A name leads to who has it now: first all names are there, then references.
    mentioned = {one.to_id for rows in work.now.values() for one in rows.mentions}
    work.web.ask_for_kinds(mentioned - {""})
    mentions = {i: _mentions(work, i) for i in touched}
    _write(work, "mention", mentions)
    return mentions


def _write(work: _Work, table: str, changes: dict[str, Change]) -> None:
    """Write the rows of records that have others than before."""
    changed = {i: change for i, change in changes.items() if change[0] != change[1]}
    old = ((identity,) for identity, (before, _) in changed.items() if before)
    work.db.executemany(f"DELETE FROM {table} WHERE record = ?", old)  # noqa: S608
    insert(work.db, table, [row for _, now in changed.values() for row in now])


def _names(work: _Work, identity: str) -> Change:
    before = sorted(work.kept.get(identity, _NEW).names)
    rows = work.now.get(identity)
    now = sorted(rows.names) if rows else []
    return (
        [(name, identity, int(current)) for name, current in before],
        [(name, identity, int(current)) for name, current in now],
    )


def _readings(work: _Work, identity: str) -> Change:
    before = work.kept.get(identity, _NEW).readings
    rows = work.now.get(identity)
    return before, [*reading_rows(rows.record)] if rows else []


def _mentions(work: _Work, identity: str) -> Change:
    before = work.kept.get(identity, _NEW).mentions
    rows = work.now.get(identity)
    mentions = enumerate(rows.mentions) if rows else ()
    now = [mention_row(work.web, identity, number, one) for number, one in mentions]
    return before, now


def _derive(work: _Work, moved: Collection[str]) -> None:
    """Write the rows of the records themselves, and what the search has of them."""
    keys = _keys(work)
    new: list[Row] = []
    for identity, rows in work.now.items():
        kept = work.kept.get(identity, _NEW).row
        if kept and identity not in moved:
            part, build = kept[PART], kept[BUILD]
        else:
            part, build = part_of(work.web, identity), build_of(work.web, identity)
        new.append(record_row(rows, keys[identity], part, build))
    new.sort()
    same = {kept.row for kept in work.kept.values()} & {*new}
    old = [kept for kept in work.kept.values() if kept.row not in same]
    new = [row for row in new if row not in same]
    drop = "DELETE FROM record WHERE key = ?"
    work.db.executemany(drop, ((kept.row[KEY],) for kept in old))
    insert(work.db, "record", new)
    before, now = {kept.found_by for kept in old}, [found_by(row) for row in new]
    work.db.executemany(statements.DROP_SEARCH, sorted(before - {*now}))
    work.db.executemany(
        statements.ADD_SEARCH, [one for one in now if one not in before]
    )


def _keys(work: _Work) -> dict[str, int]:
    """Give each record its key, or the next of the same second nobody has.

    Who keeps the one he has comes first.
    """
    wished = {identity: key_of(rows.record) for identity, rows in work.now.items()}
    own = {identity: kept.row[KEY] for identity, kept in work.kept.items()}
    keys = {i: key for i, key in wished.items() if own.get(i) == key}
    asked = "SELECT key FROM record WHERE key IN"
    freed, taken = set(own.values()), set(keys.values())
    others = {key for (key,) in asked_of(work.db, asked, wished.values())} - freed
    for identity in wished.keys() - keys.keys():
        key = wished[identity]
        while key in taken or key in others:
            key = _next(key)
            others |= {found for (found,) in asked_of(work.db, asked, [key])} - freed
        keys[identity] = key
        taken.add(key)
    return keys


def _next(key: int) -> int:
    """Give the next key of the same second; the first comes after the last."""
    return key >> SLOTS << SLOTS | (key + 1) & ((1 << SLOTS) - 1)
