"""A record file read for the index: its signature, its hash and what it says."""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from logbook.errors import Problem
from logbook.records.kinds.place import FOLDER
from logbook.records.written.text import Parsed, digest, read_record
from logbook.store.reading.find import RecordFile

PROOF_NS = 2_000_000_000
"""Times younger than this prove nothing: the coarsest file systems count in 2 s."""

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
    """Give the signature of a file or folder; None where there is none."""
    try:
        seen = os.lstat(f"{root}/{path}")
    except OSError:
        return None
    return seen.st_size, seen.st_mtime_ns, seen.st_ctime_ns, seen.st_ino


def proven(seen: Seen, now_ns: int) -> Seen:
    """Give the signature as it is kept: without times that are too young."""
    size, written, changed, inode = seen
    if max(written, changed) > now_ns - PROOF_NS:
        return size, UNPROVEN, UNPROVEN, inode
    return seen


def read_file(root: Path, path: str) -> Read | None:
    """Read a record file, `path` relative to the project; None if it is gone."""
    found = read_again(root, path, "")
    return found if isinstance(found, Read) else None


def read_again(root: Path, path: str, known: str) -> Read | Seen | None:
    """Read a record file; give only its signature where its hash is the one known."""
    seen = look(root, path)
    if seen is None:
        return None
    data = RecordFile(str(root / FOLDER), path.removeprefix(f"{FOLDER}/")).read()
    now = time.time_ns()
    if isinstance(data, Problem):
        broken = Parsed(None, (replace(data, file=path),))
        return Read(path, (seen[0], UNPROVEN, UNPROVEN, seen[3]), "", broken)
    sha256, kept = digest(data), proven(seen, now)
    return (
        kept if sha256 == known else Read(path, kept, sha256, read_record(data, path))
    )
