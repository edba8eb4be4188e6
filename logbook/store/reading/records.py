"""Reading the records of a project: all of them, or the few that changed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path

from logbook.errors import Problem
from logbook.records.kinds.place import FOLDER
from logbook.records.together.from_files import make_snapshot
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.spread import with_changes
from logbook.records.written.text import Parsed, digest, fact_line, read_record
from logbook.store.reading.find import RecordFile, record_files

Files = Mapping[str, tuple[str, Parsed]]
"""Each record file by its path from the project's folder: digest and content."""


def read_files(root: Path) -> dict[str, tuple[str, Parsed]]:
    """Read every record file below `root`/as-built."""
    return dict(each_read(root))


def each_read(root: Path) -> Iterator[tuple[str, tuple[str, Parsed]]]:
    """Read every record file below `root`/as-built, one after the other."""
    base = str(root / FOLDER)
    for path in record_files(root / FOLDER):
        yield f"{FOLDER}/{path}", _read(RecordFile(base, path))


def reread(root: Path, files: Files, paths: Iterable[str]) -> Files:
    """Give the files with these paths read again; those that are gone are gone."""
    base, gone = str(root / FOLDER), []
    fresh: dict[str, tuple[str, Parsed]] = {}
    for path in paths:
        if (root / path).is_file():
            fresh[path] = _read(RecordFile(base, path.removeprefix(f"{FOLDER}/")))
        else:
            gone.append(path)
    return with_changes(files, gone, fresh)


def snapshot_of(files: Files) -> Snapshot:
    """Put read files together into a snapshot."""
    return make_snapshot((path, *read) for path, read in files.items())


def located(root: Path, problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Give problems with the line of the fact they name, where it can be found.

    What two records only together get wrong is found after reading, when the
    lines are no longer known; so those few files are looked at again.
    """
    texts: dict[str, bytes] = {}
    found = []
    for problem in problems:
        if problem.line or not problem.field:
            found.append(problem)
            continue
        if problem.file not in texts:
            place = root / problem.file
            texts[problem.file] = place.read_bytes() if place.is_file() else b""
        line = fact_line(texts[problem.file], problem.file, problem.field)
        found.append(replace(problem, line=line))
    return tuple(dict.fromkeys(found))


def _read(file: RecordFile) -> tuple[str, Parsed]:
    path = f"{FOLDER}/{file.path}"
    data = file.read()
    if isinstance(data, Problem):
        return "", Parsed(None, (replace(data, file=path),))
    return digest(data), read_record(data, path)
