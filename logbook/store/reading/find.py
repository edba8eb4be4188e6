"""Where the project is, and which files in it are records.

The project is the nearest `as-built/project.md` upward. Records are the `.md`
files in its folders; links, hidden and half-saved files are not. Nothing is
opened to find them: 100,000 names cost some tens of milliseconds.
"""

from __future__ import annotations

import os
import shlex
import stat
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from logbook.counting import first_few
from logbook.errors import NoProject, Problem
from logbook.records.kinds.place import FOLDER, PRINTED, PROJECT_FILE
from logbook.store.disk.flushed import reason
from logbook.store.reading.designs_below import designs_below

NO_RECORDS = frozenset({"published", "photos", "templates", PRINTED})
"""Folders below `as-built/` that hold something other than records."""

_MOST = 8
"""Designs named where several lie below."""


class Signature(NamedTuple):
    """What `stat` tells of a file: the same signature, almost surely the same bytes."""

    size: int
    changed_ns: int
    inode: int


@dataclass(frozen=True, slots=True)
class RecordFile:
    """A record file by its path relative to `as-built/`, with `/`, not yet read."""

    root: str
    path: str

    def read(self) -> bytes | Problem:
        """Read the bytes; a file that cannot be read is a problem, not an end."""
        flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_BINARY", 0)
        try:
            descriptor = os.open(f"{self.root}/{self.path}", flags)
            with os.fdopen(descriptor, "rb", buffering=0) as file:
                return file.read() or b""
        except OSError as error:
            found = f"a file that cannot be read ({reason(error)})"
            return Problem(self.path, 0, "", found, "a readable Markdown file")


def find_project(start: Path) -> Path:
    """Give the nearest `as-built` folder upward from `start` that has a project.

    Raises:
        NoProject: there is none up to the root of the file system.
    """
    here = Path(os.path.realpath(start))
    for folder in (here, *here.parents):
        if is_project(folder / FOLDER):
            return folder / FOLDER
    below = designs_below(here)
    missing = f"no {FOLDER}/{PROJECT_FILE} in {here} or any folder above it; "
    if below:
        raise NoProject(
            f"{missing}designs with a logbook below it: {first_few(below, _MOST)}; "
            f"accepted: one of them (cd {shlex.quote(below[0])})",
            below,
        )
    raise NoProject(f"{missing}`logbook start` makes one in the design's repository")


def is_project(folder: Path) -> bool:
    """Tell whether `folder` is an `as-built` folder that has a project.

    A link is none: it could lead out of the repository.
    """
    try:
        real = stat.S_ISDIR(folder.lstat().st_mode)
        return real and stat.S_ISREG((folder / PROJECT_FILE).lstat().st_mode)
    except OSError:
        return False


def record_files(root: Path) -> list[str]:
    """List the paths of all record files below `root`, sorted, with `/`."""
    found = [PROJECT_FILE] if is_project(root) else []
    for name in _folders(root):
        found += _records_below(f"{root}/{name}", name)
    return sorted(found)


def record_files_in(root: Path, folder: str) -> list[str]:
    """List the record files of one folder, named as `folder_times` names it.

    Those of its folders that are named there by themselves are left out.
    """
    if not folder:
        return [PROJECT_FILE] if is_project(root) else []
    return _records_below(f"{root}/{folder}", folder, deeper="/" in folder)


def records(root: Path) -> Iterator[RecordFile]:
    """Give all record files below `root`, to be read one by one."""
    base = str(root)
    for path in record_files(root):
        yield RecordFile(base, path)


def signatures(root: Path, paths: Iterable[str]) -> dict[str, Signature]:
    """Give the signature of each of `paths` that is there."""
    base, found = str(root), {}
    for path in paths:
        try:
            seen = os.lstat(f"{base}/{path}")
        except OSError:
            continue
        found[path] = Signature(seen.st_size, seen.st_mtime_ns, seen.st_ino)
    return found


def folder_times(root: Path) -> dict[str, int]:
    """Give when a name last came or went in each folder of records, nanoseconds.

    The month folders are not opened, so it is quick, but blind to a file changed
    in place and to folders below a month's.
    """
    times = {"": root.lstat().st_mtime_ns}
    for kind in _folders(root):
        try:
            times[kind] = (root / kind).lstat().st_mtime_ns
            for entry in _below(root / kind):
                seen = entry.stat(follow_symlinks=False)
                times[f"{kind}/{entry.name}"] = seen.st_mtime_ns
        except OSError:
            continue
    return times


def _below(folder: Path) -> list[os.DirEntry[str]]:
    with os.scandir(folder) as entries:
        return [entry for entry in entries if _is_folder(entry)]


def is_record(path: str) -> bool:
    """Tell a record's file, by its path from the project, from all others in it."""
    parts = path.split("/")
    return path.endswith(".md") and parts[1] not in NO_RECORDS


def _folders(root: Path) -> list[str]:
    try:
        return [e.name for e in _below(root) if e.name not in NO_RECORDS]
    except OSError:
        return []


def _is_folder(entry: os.DirEntry[str]) -> bool:
    return entry.is_dir(follow_symlinks=False) and not entry.name.startswith(".")


def _records_below(folder: str, shown: str, *, deeper: bool = True) -> list[str]:
    # Each folder by itself in order: to sort very many names at once would hold up
    # every other thread, to sort what is nearly in order does not.
    found = []
    try:
        with os.scandir(folder) as entries:
            for entry in entries:
                name = entry.name
                if name.endswith(".md") and not name.startswith("."):
                    if entry.is_file(follow_symlinks=False):
                        found.append(f"{shown}/{name}")
                elif deeper and _is_folder(entry):
                    found += _records_below(entry.path, f"{shown}/{name}")
    except OSError:
        return sorted(found)
    return sorted(found)
