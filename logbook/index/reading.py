"""A record file read for the index: its signature, its hash and what it says."""

from __future__ import annotations

import os
import stat
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from logbook.errors import Problem
from logbook.records.written.text import Parsed, digest, read_record
from logbook.store.reading.find import RecordFile

PROOF_NS = 2_000_000_000
"""Times younger than this prove nothing: the coarsest file systems count in 2 s."""

TICK_NS = 20_000_000
"""What is written within so much of a moment can bear that moment's time, however
finely times are counted: system clocks tick in 4 to 16 ms."""

FINE_NS = 1_000_000
"""A time that is no whole number of these was counted finely."""

Seen = tuple[int, int, int, int]
"""Size, when written and when changed in nanoseconds, and inode of a file."""

UNPROVEN = -1


@dataclass(frozen=True, slots=True)
class Read:
    """A file as read; `sha256` is empty where it could not be."""

    path: str
    seen: Seen
    sha256: str
    parsed: Parsed

    @property
    def record_id(self) -> str:
        """Give the id of the record in it, empty without one."""
        return self.parsed.record.id if self.parsed.record else ""

    def file_row(self, *, settled: bool = False) -> tuple[Any, ...]:
        """Give the row of the file table, in the order of its columns."""
        known = (self.path, *self.seen, self.sha256)
        return (*known, int(settled), self.parsed.format, self.record_id)

    def problem_rows(self) -> Iterator[tuple[Any, ...]]:
        """Give the rows of its problems, in the order of their columns."""
        for number, one in enumerate(self.parsed.problems):
            yield self.path, number, one.line, one.field, one.found, one.accepted


def look(root: Path | str, path: str) -> Seen | None:
    """Give the signature of a file; None where there is none, a link is none."""
    return _seen(root, path, stat.S_IFREG)


def look_at_folder(root: Path | str, path: str) -> Seen | None:
    """Give the signature of a folder; None where there is none, a link is none."""
    return _seen(root, path, stat.S_IFDIR)


def _seen(root: Path | str, path: str, sort: int) -> Seen | None:
    try:
        seen = os.lstat(f"{root}/{path}")
    except OSError:
        return None
    if stat.S_IFMT(seen.st_mode) != sort:
        return None
    return seen.st_size, seen.st_mtime_ns, seen.st_ctime_ns, seen.st_ino


def proven(seen: Seen, now_ns: int) -> Seen:
    """Give the signature as it is kept: without times that are too young.

    `now_ns` is a moment before it was looked at. Whatever is written after that
    moment must bear another time.
    """
    size, written, changed, inode = seen
    fine = written % FINE_NS and changed % FINE_NS
    if max(written, changed) > now_ns - (TICK_NS if fine else PROOF_NS):
        return size, UNPROVEN, UNPROVEN, inode
    return seen


def read_file(root: Path, path: str) -> Read | None:
    """Read a record file, `path` relative to the project; None if it is gone."""
    found = read_again(root, path, "")
    return found if isinstance(found, Read) else None


def read_again(root: Path, path: str, known: str) -> Read | Seen | None:
    """Read a record file; give only its signature where its hash is the one known."""
    now = time.time_ns()
    seen = look(root, path)
    if seen is None:
        return None
    data = RecordFile(str(root), path).read()
    if isinstance(data, Problem):
        unproven = (seen[0], UNPROVEN, UNPROVEN, seen[3])
        return Read(path, unproven, "", Parsed(None, (data,)))
    sha256, kept = digest(data), proven(seen, now)
    return (
        kept if sha256 == known else Read(path, kept, sha256, read_record(data, path))
    )
