"""Which files are other than the index has them: the full truth, quickly.

Each candidate is compared by its signature; a file whose signature differs is
read, and its hash decides. Where git keeps many files, git says which can have
changed at all: it looks at every file, several at a time, while we look at the
folders only. Elsewhere every file is looked at here.

A file that the user told git to assume unchanged is seen to change only until
the index is rebuilt with it so marked; from then on it is looked at each time.
"""

from __future__ import annotations

import os
import sqlite3
import stat
import time
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from logbook.errors import Refused
from logbook.index.fill import folder_rows, insert
from logbook.index.reading import Seen, look
from logbook.records.kinds.place import FOLDER, PROJECT_FILE
from logbook.store.git.command import Answer, ask
from logbook.store.git.repository import Repository
from logbook.store.reading.find import NO_RECORDS, record_files

MANY_UNSETTLED = 2000
"""With more files than this that git does not vouch for, it is asked again."""

FEW_FILES = 4000
"""So many files are looked at sooner than git is started."""

_FOLDER = "path, written_ns, changed_ns, inode"

TICK_NS = 20_000_000
"""What is written within so much of a moment can bear that moment's time."""


@dataclass(slots=True)
class Changes:
    """Files to read, files that are gone, and what git can vouch for after that.

    `same` are files that were read and say what they said, with their signatures.
    `vouched` are files that git has newly taken, `doubted` those it has no more;
    with `anew` it is asked about all, and what it vouched for before is void.
    """

    read: list[str] = field(default_factory=list)
    gone: list[str] = field(default_factory=list)
    base: str = ""
    anew: bool = False
    vouched: set[str] = field(default_factory=set)
    doubted: set[str] = field(default_factory=set)
    same: list[tuple[str, Seen]] = field(default_factory=list)
    began_ns: int = 0
    folders: list[tuple[Any, ...]] = field(default_factory=list)
    folders_lost: list[str] = field(default_factory=list)


def find_changes(
    db: sqlite3.Connection, root: Path, repository: Repository | None
) -> Changes:
    """Compare the files below `root` with the index."""
    began = time.time_ns()
    changes = None
    [many] = db.execute("SELECT count(*) > ? FROM file", (FEW_FILES,)).fetchone()
    asked = repository if many else None
    if asked is not None and _mostly_settled(db):
        changes = _by_git(db, root, asked)
    if changes is None:
        changes = _by_looking(db, root)
        if asked is not None:
            _ask_git_for_all(changes, root, asked)
    changes.began_ns = began
    return changes


def keep(db: sqlite3.Connection, changes: Changes) -> None:
    """Keep what was seen and what git vouches for, once the changes are taken in."""
    if _nothing_new(db, changes):
        return
    mark = "UPDATE file SET settled = ? WHERE path = ?"
    again = (
        "UPDATE file SET settled = 0, size = ?, written_ns = ?, changed_ns = ?, "
        "inode = ? WHERE path = ?"
    )
    lost = "DELETE FROM folder WHERE path = ?"
    db.execute("BEGIN IMMEDIATE")
    db.executemany(lost, ((path,) for path in changes.folders_lost))
    insert(db, "folder", changes.folders)
    db.executemany(again, ((*seen, path) for path, seen in changes.same))
    if changes.anew:
        db.execute("UPDATE file SET settled = 0 WHERE settled = 1")
    db.executemany(mark, ((0, path) for path in changes.doubted))
    old = f"{mark} AND changed_ns BETWEEN 0 AND ?"
    before = changes.began_ns - TICK_NS
    db.executemany(old, ((1, path, before) for path in changes.vouched))
    insert(db, "meta", [("base", changes.base)])
    db.execute("COMMIT")


def _nothing_new(db: sqlite3.Connection, changes: Changes) -> bool:
    """Tell whether what was seen is what is kept; folders are where they differ."""
    held = {row[0]: row for row in db.execute(f"SELECT {_FOLDER} FROM folder")}  # noqa: S608
    changes.folders = [row for row in changes.folders if held.get(row[0]) != row]
    if changes.folders or changes.folders_lost or changes.same:
        return False
    if changes.vouched or changes.doubted:
        return False
    base = db.execute("SELECT value FROM meta WHERE name = 'base'").fetchone()
    settled = "SELECT 1 FROM file WHERE settled = 1 LIMIT 1"
    void = changes.anew and db.execute(settled).fetchone()
    return base == (changes.base,) and not void


def _mostly_settled(db: sqlite3.Connection) -> bool:
    asked = "SELECT count(*) FROM file WHERE settled = 0"
    return bool(db.execute(asked).fetchone()[0] <= MANY_UNSETTLED)


# -- every file looked at --------------------------------------------------------


def _by_looking(db: sqlite3.Connection, root: Path) -> Changes:
    asked = "SELECT path, size, written_ns, changed_ns, inode FROM file"
    known = {row[0]: row for row in db.execute(asked)}
    changes = Changes(anew=True)
    there = [f"{FOLDER}/{path}" for path in record_files(root / FOLDER)]
    base = str(root)
    for path in there:
        if known.pop(path, None) != (path, *(look(base, path) or ())):
            changes.read.append(path)
    changes.gone = list(known)
    changes.folders = folder_rows(root, there)
    now = {row[0] for row in changes.folders}
    held = db.execute("SELECT path FROM folder")
    changes.folders_lost = [path for (path,) in held if path not in now]
    return changes


def _ask_git_for_all(changes: Changes, root: Path, repository: Repository) -> None:
    """Find out what git vouches for, where it has not been asked before."""
    head = repository.head()
    if head is None:
        return
    inside = _inside(root, repository)
    listed = ask(root, "ls-files", "-v", "-z", "--", FOLDER)
    dirty = _dirty(root, head)
    if dirty is None or not listed.good:
        return
    plain = {f"{line[2:]}" for line in listed.fields() if line.startswith("H ")}
    changes.base = head
    changes.vouched = plain - {path.removeprefix(inside) for path in dirty}


def _dirty(root: Path, base: str) -> set[str] | None:
    files = ask(root, "diff-files", "-z", "--name-only", "--", FOLDER)
    staged = _staged(root, base)
    if not files.good or not staged.good:
        return None
    return {*files.fields(), *staged.fields()}


def _staged(root: Path, base: str) -> Answer:
    words = ("diff-index", "--cached", "-z", "--name-only", "--no-renames")
    return ask(root, *words, base, "--", FOLDER)


def _inside(root: Path, repository: Repository) -> str:
    """Give what git writes before a path of the project."""
    place = repository.relative(root)
    return "" if place == "." else f"{place}/"


# -- git looks at the files, we look at the folders ------------------------------


def _by_git(
    db: sqlite3.Connection, root: Path, repository: Repository
) -> Changes | None:
    held = db.execute("SELECT value FROM meta WHERE name = 'base'").fetchone()
    head = repository.head()
    if not held or not held[0] or head is None:
        return None
    base = held[0]
    try:
        with ThreadPoolExecutor(3) as threads:
            words = ("diff-files", "-z", "--name-only", "--", FOLDER)
            asked_files = threads.submit(ask, root, *words)
            asked_base = threads.submit(_staged, root, base)
            asked_head = threads.submit(_staged, root, head) if head != base else None
            changes, came = _by_folders(db, root)
        files, moved = asked_files.result(), asked_base.result()
        staged = asked_head.result() if asked_head else moved
    except Refused:
        return None
    if not (files.good and moved.good and staged.good):
        return None
    inside = _inside(root, repository)
    dirty = {p.removeprefix(inside) for p in (*files.fields(), *staged.fields())}
    moved_paths = {path.removeprefix(inside) for path in moved.fields()}
    changes.base = head
    changes.doubted = dirty
    changes.vouched = moved_paths - dirty
    _compare(db, root, changes, dirty | moved_paths | came)
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


def _is_record_name(folder: str, name: str) -> bool:
    if folder == FOLDER:
        return name == PROJECT_FILE
    return name.endswith(".md") and not name.startswith(".")


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


def _by_folders(db: sqlite3.Connection, root: Path) -> tuple[Changes, set[str]]:
    """Find names that went, and those that came, in folders that changed."""
    asked = "SELECT path, written_ns, changed_ns, inode FROM folder"
    changes, came = Changes(), set()
    changed, lost = [], []
    for path, *held in db.execute(asked).fetchall():
        seen = look(root, path)
        if seen is None or (root / path).is_symlink():
            lost.append(path)
        elif tuple(held) != seen[1:]:
            changed.append(path)
    known_folders = {path for (path,) in db.execute("SELECT path FROM folder")}
    now: set[str] = set()
    waiting = list(changed)
    while waiting:
        folder = waiting.pop()
        now.add(folder)
        names, below = _listed(root, folder)
        came |= names - _held(db, folder, changes, names)
        waiting += below - known_folders - now
    for folder in lost:
        _held(db, folder, changes, set())
    changes.folders_lost = lost
    changes.folders = folder_rows(root, [f"{folder}/-" for folder in now])
    return changes, came


def _listed(root: Path, folder: str) -> tuple[set[str], set[str]]:
    """List the files and the folders in a folder of records."""
    names, below = set(), set()
    try:
        with os.scandir(root / folder) as entries:
            for entry in entries:
                path = f"{folder}/{entry.name}"
                if entry.is_dir(follow_symlinks=False):
                    skipped = folder == FOLDER and entry.name in NO_RECORDS
                    if not skipped and not entry.name.startswith("."):
                        below.add(path)
                elif _is_record_name(folder, entry.name) and entry.is_file(
                    follow_symlinks=False
                ):
                    names.add(path)
    except OSError:
        pass
    return names, below


def _held(
    db: sqlite3.Connection, folder: str, changes: Changes, names: set[str]
) -> set[str]:
    """Give the files the index has in a folder; those not there are gone."""
    asked = "SELECT path FROM file WHERE path > ? AND path < ?"
    rows = db.execute(asked, (f"{folder}/", f"{folder}0"))
    held = {path for (path,) in rows if "/" not in path[len(folder) + 1 :]}
    changes.gone += held - names
    return held
