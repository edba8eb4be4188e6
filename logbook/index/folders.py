"""The folders of records: which names came and went in them since they were seen.

A name that comes or goes marks its folder with the time (POSIX asks it of each call
that makes, links, renames or removes a file), so a folder with the times it had holds
the names it held, and is not listed again. Its times are looked at before it is
listed: what comes meanwhile shows the next time.
"""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Callable
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from logbook.index.reading import look_at_folder, proven
from logbook.records.kinds.place import FOLDER, PROJECT_FILE
from logbook.store.reading.find import NO_RECORDS

FOLDERS = "SELECT path, written_ns, changed_ns, inode FROM folder ORDER BY path"


@dataclass(slots=True)
class Names:
    """Files that came and went, folders listed for it as their rows, folders lost."""

    came: set[str] = field(default_factory=set)
    gone: list[str] = field(default_factory=list)
    listed: list[tuple[Any, ...]] = field(default_factory=list)
    lost: list[str] = field(default_factory=list)


def walked(root: Path) -> Names:
    """List all folders of records there are."""
    names = Names()
    _list(root, [FOLDER], set(), names)
    return names


def changed_names(
    db: sqlite3.Connection, root: Path, held_in: Callable[[str], AbstractSet[str]]
) -> Names:
    """List the folders that are other than the index has them.

    `held_in` gives the files the index has in a folder.
    """
    names = Names()
    known, lost = {FOLDER}, set()
    changed: list[str] = []
    rows = db.execute(FOLDERS).fetchall()
    for path, *held in rows or [(FOLDER,)]:
        known.add(path)
        seen = look_at_folder(root, path)
        if seen is None or path.rpartition("/")[0] in lost:  # a link stands above
            lost.add(path)
        elif tuple(held) != seen[1:]:
            changed.append(path)
    names.lost = [*lost]
    there = _list(root, changed, known, names)
    names.came.clear()
    for folder, now in {**there, **dict.fromkeys(lost, frozenset())}.items():
        held_there = held_in(folder)
        names.came |= now - held_there
        names.gone += held_there - now
    return names


def _list(
    root: Path, waiting: list[str], known: set[str], names: Names
) -> dict[str, AbstractSet[str]]:
    """List these folders, and those below them that are not known; give their files."""
    there: dict[str, AbstractSet[str]] = {}
    while waiting:
        folder = waiting.pop()
        if folder in there:
            continue
        now = time.time_ns()
        seen = look_at_folder(root, folder)
        if seen is None:
            continue
        names.listed.append((folder, *proven(seen, now)[1:]))
        there[folder], below = _listed(root, folder)
        names.came |= there[folder]
        waiting += below - known
    return there


def _listed(root: Path, folder: str) -> tuple[set[str], set[str]]:
    """List the files and the folders in a folder of records."""
    names, below = set(), set()
    try:
        with os.scandir(f"{root}/{folder}") as entries:
            for entry in entries:
                name = entry.name
                if name.startswith("."):
                    continue
                if name.endswith(".md") and entry.is_file(follow_symlinks=False):
                    if folder != FOLDER or name == PROJECT_FILE:
                        names.add(f"{folder}/{name}")
                elif entry.is_dir(follow_symlinks=False) and not (
                    folder == FOLDER and name in NO_RECORDS
                ):
                    below.add(f"{folder}/{name}")
    except OSError:
        pass
    return names, below


def held_in(db: sqlite3.Connection, folder: str) -> set[str]:
    """Give the files the index has in a folder."""
    asked = "SELECT path FROM file WHERE path > ? AND path < ?"
    rows = db.execute(asked, (f"{folder}/", f"{folder}0"))
    return {path for (path,) in rows if "/" not in path[len(folder) + 1 :]}
