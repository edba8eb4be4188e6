"""Which files are other than the index has them: the full truth, quickly.

Each file is compared by its signature; one whose signature differs is read, and
its hash decides. Where git keeps many files, git says which can have changed at
all (`vouched`): it looks at every file, several at a time, while we look at the
folders only. Elsewhere every file is looked at here.

A file that the user told git to assume unchanged is seen to change only until
the index is rebuilt with it so marked; from then on it is looked at each time.
"""

from __future__ import annotations

import os
import sqlite3
import stat
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import Any

from logbook.index.fill import insert
from logbook.index.folders import FOLDERS, Names, changed_names, held_in
from logbook.index.known import Known
from logbook.index.reading import TICK_NS, Seen, look
from logbook.index.vouched import Vouched, ask_about_all, ask_about_changed
from logbook.records.kinds.place import FOLDER, PROJECT_FILE
from logbook.store.git.repository import Repository
from logbook.store.reading.find import NO_RECORDS

MANY_UNSETTLED = 2000
"""With more files than this that git does not vouch for, it is asked again."""

FEW_FILES = 4000
"""So many files are looked at sooner than git is started."""

_BESIDE = os.stat in os.supports_dir_fd
"""Whether a file can be looked at from its folder: the way there is spared."""

_FOLDER_ONLY = getattr(os, "O_DIRECTORY", 0) | getattr(os, "O_NOFOLLOW", 0)
"""What else stands in its place is not opened, so that nothing is waited for."""


@dataclass(slots=True)
class Changes:
    """Files to read, files that are gone, and what git can vouch for after that.

    All to be read are records by their names. `same` are files that were read and say
    what they said, with their signatures. With `anew` git was asked about all, or
    about none, and what it vouched for before is void.
    """

    names: Names
    read: list[str] = field(default_factory=list)
    gone: list[str] = field(default_factory=list)
    git: Vouched = field(default_factory=Vouched)
    anew: bool = False
    same: list[tuple[str, Seen]] = field(default_factory=list)
    began_ns: int = 0


def find_changes(
    db: sqlite3.Connection, root: Path, repository: Repository | None, known: Known
) -> Changes:
    """Compare the files below `root` with the index."""
    began = time.time_ns()
    [many] = db.execute("SELECT count(*) > ? FROM file", (FEW_FILES,)).fetchone()
    asked = repository if many else None
    changes = None
    if asked is not None and _mostly_settled(db):
        changes = _by_git(db, root, asked)
    if changes is None:
        changes = _by_looking(db, root, known)
        if asked is not None:
            changes.git = ask_about_all(root, asked)
    changes.began_ns = began
    return changes


def _mostly_settled(db: sqlite3.Connection) -> bool:
    asked = "SELECT count(*) FROM file WHERE settled = 0"
    return bool(db.execute(asked).fetchone()[0] <= MANY_UNSETTLED)


# -- every file looked at --------------------------------------------------------


def _by_looking(db: sqlite3.Connection, root: Path, known: Known) -> Changes:
    every = known.files()

    def held(folder: str) -> set[str]:
        return {f"{folder}/{name}" for name in every.get(folder, ())}

    names = changed_names(db, root, held)
    changes = Changes(names, [*names.came], names.gone, anew=True)
    gone = set(names.gone)
    for folder, files in every.items():
        for name in _differing(f"{root}/{folder}", files):
            path = f"{folder}/{name}"
            if path in gone:
                continue
            if look(root, path) is None:
                changes.gone.append(path)
            else:
                changes.read.append(path)
    changes.read.sort()
    return changes


def _differing(place: str, files: Mapping[str, Seen]) -> list[str]:
    """Name the files of a folder that are not as they were seen."""
    differing = []
    with _standing_in(place) as (before, folder):
        for name, held in files.items():
            try:
                seen = os.lstat(before + name, dir_fd=folder)
            except OSError:
                differing.append(name)
                continue
            now = (seen.st_size, seen.st_mtime_ns, seen.st_ctime_ns, seen.st_ino)
            if now != held:
                differing.append(name)
    return differing


@contextmanager
def _standing_in(place: str) -> Iterator[tuple[str, int | None]]:
    """Give what a name is looked for with: what stands before it, and its folder."""
    try:
        folder = os.open(place, os.O_RDONLY | _FOLDER_ONLY) if _BESIDE else None
    except OSError:  # it is not there, or closed to us: as its files will show
        folder = None
    if folder is None:
        yield f"{place}/", None
        return
    try:
        yield "", folder
    finally:
        os.close(folder)


# -- git looks at the files, we look at the folders ------------------------------


def _by_git(
    db: sqlite3.Connection, root: Path, repository: Repository
) -> Changes | None:
    held = db.execute("SELECT value FROM meta WHERE name = 'base'").fetchone()
    if not held or not held[0]:
        return None
    with ask_about_changed(root, repository, held[0]) as answer:
        names = changed_names(db, root, partial(held_in, db))
        git = answer()
    if git is None:
        return None
    changes = Changes(names, gone=names.gone, git=git)
    _compare(db, root, changes, git.doubted | git.vouched | names.came)
    return changes


def _compare(
    db: sqlite3.Connection, root: Path, changes: Changes, candidates: set[str]
) -> None:
    """Compare the signatures of the candidates, and of all git does not vouch for."""
    fields = "path, size, written_ns, changed_ns, inode"
    unsettled = f"SELECT {fields} FROM file WHERE settled = 0"  # noqa: S608
    known = {row[0]: row[1:] for row in db.execute(unsettled)}
    asked = f"SELECT {fields} FROM file WHERE path = ?"  # noqa: S608
    for path in candidates - known.keys():
        row = db.execute(asked, (path,)).fetchone()
        if row:
            known[path] = row[1:]
    gone = set(changes.gone)
    for path in sorted({*known, *candidates} - gone):
        seen = look(root, path)
        if seen is None:
            if path in known:
                changes.gone.append(path)
        elif known.get(path) != seen and (path in known or is_record(root, path)):
            changes.read.append(path)


def is_record(root: Path, path: str) -> bool:
    """Tell whether a path is one at which records are looked for."""
    top, *folders, name = path.split("/")
    if top != FOLDER or name.startswith(".") or not name.endswith(".md"):
        return False
    if not folders:
        return name == PROJECT_FILE
    if folders[0] in NO_RECORDS or any(one.startswith(".") for one in folders):
        return False
    place = f"{root}/{FOLDER}"
    for folder in folders:
        place = f"{place}/{folder}"
        if os.path.islink(place):  # noqa: PTH114  # asked for each of many files
            return False
    try:
        return stat.S_ISREG(os.lstat(f"{place}/{name}").st_mode)
    except OSError:
        return False


# -- what is kept of it ----------------------------------------------------------


def keep(db: sqlite3.Connection, changes: Changes) -> None:
    """Keep what was seen and what git vouches for, once the changes are taken in."""
    folders = _new_folders(db, changes)
    if not folders and _nothing_new(db, changes):
        return
    mark = "UPDATE file SET settled = ? WHERE path = ?"
    again = (
        "UPDATE file SET settled = 0, size = ?, written_ns = ?, changed_ns = ?, "
        "inode = ? WHERE path = ?"
    )
    lost = "DELETE FROM folder WHERE path = ?"
    git = changes.git
    db.execute("BEGIN IMMEDIATE")
    db.executemany(lost, ((path,) for path in changes.names.lost))
    insert(db, "folder", folders)
    db.executemany(again, ((*seen, path) for path, seen in changes.same))
    if changes.anew:
        db.execute("UPDATE file SET settled = 0 WHERE settled = 1")
    db.executemany(mark, ((0, path) for path in git.doubted))
    old = f"{mark} AND changed_ns BETWEEN 0 AND ?"
    before = changes.began_ns - TICK_NS
    db.executemany(old, ((1, path, before) for path in git.vouched))
    insert(db, "meta", [("base", git.base)])
    db.execute("COMMIT")


def _new_folders(db: sqlite3.Connection, changes: Changes) -> list[tuple[Any, ...]]:
    """Give the rows of folders that are other than those kept."""
    if not changes.names.listed:
        return []
    held = {row[0]: row for row in db.execute(FOLDERS)}
    return [row for row in changes.names.listed if held.get(row[0]) != row]


def _nothing_new(db: sqlite3.Connection, changes: Changes) -> bool:
    """Tell whether what was seen is what is kept; folders are looked at apart."""
    git = changes.git
    if changes.names.lost or changes.same or git.vouched or git.doubted:
        return False
    base = db.execute("SELECT value FROM meta WHERE name = 'base'").fetchone()
    settled = "SELECT 1 FROM file WHERE settled = 1 LIMIT 1"
    void = changes.anew and db.execute(settled).fetchone()
    return base == (git.base,) and not void
