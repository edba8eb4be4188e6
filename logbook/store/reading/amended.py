"""What each commit of a record changed in it, as far as git has its states here."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from logbook.records.kinds.record import Record
from logbook.records.together.shown import Changed, what_changed
from logbook.records.written.text import read_record
from logbook.store.git.history import LogLine, versions_of
from logbook.store.git.repository import Repository

MOST = 30
"""The newest commits of which it is told; nobody reads on so far."""


def changes_by(
    repository: Repository, path: str, commits: Sequence[LogLine]
) -> tuple[tuple[Changed, ...], ...]:
    """Give what each of these commits changed in a record, newest first.

    Nothing for its first, and where a state is not here or cannot be read.
    """
    told = [commit.id for commit in commits[: MOST + 1]]
    if len(told) < 2:
        return tuple(() for _ in commits)
    states = [_record(data, path) for data in versions_of(repository, told, path)]
    found = [
        what_changed(before, after) if before is not None and after is not None else ()
        for after, before in pairwise(states)
    ]
    return (*found, *(() for _ in commits[len(found) :]))


def _record(data: bytes | None, path: str) -> Record | None:
    return read_record(data, path).record if data is not None else None
