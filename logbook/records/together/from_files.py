"""Read files put together to a snapshot, with what is wrong in and between them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from logbook.errors import Problem
from logbook.records.kinds.design import Project
from logbook.records.kinds.place import PROJECT_FILE
from logbook.records.kinds.record import Record
from logbook.records.together.checked import Checked
from logbook.records.together.clashes import (
    dangling,
    same_faults,
    same_labels,
    same_revisions,
    same_sizes,
)
from logbook.records.together.snapshot import Snapshot, Stored
from logbook.records.written.text import FORMAT, Parsed


def make_snapshot(files: Iterable[tuple[str, str, Parsed]]) -> Snapshot:
    """Put read files together: (path, SHA-256, what was read)."""
    stored: dict[str, Stored] = {}
    found: dict[str, tuple[Problem, ...]] = {}
    read_only, twice = "", False
    for path, sha256, parsed in sorted(files, key=lambda file: file[0]):
        problems = parsed.problems
        record = parsed.record
        if isinstance(record, Project) and record.format > FORMAT:
            accepted = f"format {FORMAT} or lower; the project opens read-only"
            newer = Problem(path, 0, "format", str(record.format), accepted)
            problems = (*problems, newer)
        if isinstance(record, Project) or path.endswith(f"/{PROJECT_FILE}"):
            read_only = _read_only(record, problems)
        if record is not None and record.id in stored:
            twice = True
            other = stored[record.id].path
            accepted = f"an id of its own ({other} has the same)"
            problems = (*problems, Problem(path, 0, "id", record.id, accepted))
        elif record is not None:
            stored[record.id] = Stored(record, path, sha256)
        if problems:
            found[path] = problems
    plain = Snapshot(stored, (), read_only)
    labels, revisions = tuple(same_labels(plain)), tuple(same_revisions(plain))
    faults, sizes = tuple(same_faults(plain)), tuple(same_sizes(plain))
    loose = dangling(plain, plain)
    checked = Checked(found, loose, labels, revisions, faults, sizes, twice)
    return with_problems(plain, checked)


def _read_only(project: Record | None, problems: Iterable[Problem]) -> str:
    """Say why nothing may be logged; nothing where the project's facts are known.

    A bare number typed meanwhile would be taken in a unit nobody set.
    """
    if isinstance(project, Project) and project.format > FORMAT:
        return (
            "this project was written by a newer logbook and is open read-only; "
            "accepted: a newer logbook"
        )
    for one in problems:
        if project is None or one.field in {"unit", "format"}:
            return f"{one}; until then nothing is logged, for its unit is not known"
    return ""


def with_problems(snapshot: Snapshot, checked: Checked) -> Snapshot:
    """Give a snapshot with its problems; what it has worked out already stays."""
    problems = checked.in_order(snapshot.__getitem__)
    made = replace(snapshot, problems=problems, checked=checked)
    own = {key: held for key, held in vars(snapshot).items() if key not in vars(made)}
    vars(made).update(own)
    return made
