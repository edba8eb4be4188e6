"""A project on disk for the tests of the index, and what must hold of the index."""

from __future__ import annotations

import os
import sqlite3
import subprocess
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from logbook.index.catalogue import Index
from logbook.index.database import in_memory
from logbook.index.query import ALL, Filter
from logbook.index.statements import COLUMNS
from logbook.quantity import parse_quantity
from logbook.records.kinds import design, happenings, workshop
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import path_of
from logbook.records.written.text import write_record
from logbook.store.reading.records import read_files, snapshot_of
from tests.index import scan

NOON = datetime(2026, 3, 14, 12, 0, tzinfo=UTC)
BESIDES = {
    "record": {"key"},
    "file": {"size", "written_ns", "changed_ns", "inode", "settled"},
}
"""Columns that may differ between an index kept up to date and a new one."""


def git(top: Path, *words: str, check: bool = True) -> str:
    done = subprocess.run(
        ["git", *words], cwd=top, check=check, capture_output=True, text=True
    )
    return done.stdout


def started(top: Path) -> Path:
    """Make a repository with an empty project."""
    top.mkdir(parents=True)
    git(top, "init", "-q", "-b", "main")
    named(top)
    write(top, design.Project(id="pr0jectx", title="Copy stand", when=NOON))
    return top


def named(top: Path) -> None:
    git(top, "config", "user.name", "Mara Example")
    git(top, "config", "user.email", "mara@example.org")
    git(top, "config", "gc.auto", "0")


def write(top: Path, record: Record, path: str = "") -> str:
    path = path or path_of(record)
    place = top / path
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(write_record(record), "utf-8")
    return path


def note(title: str, prose: str = "", minutes: int = 0, **more: Any) -> happenings.Note:
    when = NOON + timedelta(minutes=minutes)
    return happenings.Note(id=new_id(), title=title, prose=prose, when=when, **more)


def database(top: Path) -> Path:
    return top / ".git" / "as-built-logbook" / "index.sqlite"


def opened(top: Path) -> Index:
    index = Index.open(top, database(top))
    index.bring_up_to_date()
    return index


def age(top: Path, seconds: int = 60) -> None:
    """Let every file look older than it is, so that its times prove something.

    The times a file system keeps of its own cannot be set; they are waited for
    nowhere, so what is tested with this is the content that decides.
    """
    for place in top.joinpath("as-built").rglob("*.md"):
        seen = place.stat().st_mtime - seconds
        os.utime(place, (seen, seen))


def dump(db: sqlite3.Connection) -> dict[str, list[tuple[Any, ...]]]:
    """Give all rows that the files decide."""
    found = {}
    for table, columns in COLUMNS.items():
        if table in {"meta", "folder"}:
            continue
        names = [name for name in columns if name not in BESIDES.get(table, ())]
        found[table] = sorted(db.execute(f"SELECT {', '.join(names)} FROM {table}"))
    return found


def agree(index: Index, searches: tuple[str, ...], filters: tuple[Filter, ...]) -> None:
    """Check the index against a new one, a plain scan, and the database's own check."""
    fresh = in_memory(index.root)
    assert dump(index._write) == dump(fresh)
    fresh.close()
    assert index._write.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    whole = "INSERT INTO search (search, rank) VALUES ('integrity-check', 1)"
    index._write.execute(whole)
    snapshot = snapshot_of(read_files(index.root))
    assert sum(index.counts().values()) == len(snapshot)
    for record in snapshot:
        mentioned = [other.id for other in snapshot.mentions(record)]
        assert [line.id for line in index.mentions(record.id)] == mentioned
    for typed in searches:
        for wanted in filters:
            expected = scan.search(snapshot, typed, wanted)
            answer = [line.id for line in index.search(typed, wanted, 1000)]
            assert answer == expected, (typed, wanted)
            few = [line.id for line in index.search(typed, wanted, 3)]
            assert few == expected[:3], (typed, wanted)
            best = [line.id for line in index.ranked(typed, wanted, 1000)]
            assert sorted(best) == sorted(expected), (typed, wanted)


def crossbar(top: Path) -> tuple[design.Part, workshop.Build, workshop.Piece]:
    """Write a part, a build and a piece."""
    part = design.Part(id=new_id(), title="crossbar", name="crossbar", when=NOON)
    build = workshop.Build(id=new_id(), title="build 1", when=NOON)
    piece = workshop.Piece(
        id=new_id(), title="crossbar-1", part=part.ref, build=build.ref, when=NOON
    )
    for record in (part, build, piece):
        write(top, record)
    return part, build, piece


def run(piece: workshop.Piece, value: str, minutes: int = 0) -> happenings.Run:
    when = NOON + timedelta(minutes=minutes)
    reading = happenings.Reading(
        id=new_id(),
        at=when,
        what=Ref("length"),
        value=parse_quantity(value),
        place="left",
    )
    return happenings.Run(
        id=new_id(), title="Measured", when=when, piece=piece.ref, readings=(reading,)
    )


EVERYTHING = (ALL,)
