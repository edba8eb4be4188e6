"""When the words of a known fault last changed: what git says of its record's file.

A record that is edited by hand carries no date of that; git does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date, datetime
from pathlib import Path

from logbook.records.kinds.made_public import Erratum
from logbook.records.together.snapshot import Snapshot
from logbook.store.git.history import changed_since_head, is_shallow, log_of
from logbook.store.git.repository import Repository


def worded(
    snapshot: Snapshot, root: Path, repository: Repository, faults: Iterable[Erratum]
) -> dict[str, date]:
    """Give the day on which the record of each fault last changed, by its id.

    A change that git has not taken yet is as new as the file. Nothing is given of what
    git does not know, nor in a clone that has only the newest commits.
    """
    if is_shallow(repository):
        return {}
    places = {
        fault.id: root / snapshot.path(snapshot[fault.id])
        for fault in faults
        if fault.id in snapshot
    }
    paths = {known: repository.relative(place) for known, place in places.items()}
    changed = changed_since_head(repository, tuple(paths.values())) if paths else ()
    found = {}
    for known, path in paths.items():
        if path in (changed or ()):
            stamp = datetime.fromtimestamp(places[known].stat().st_mtime).astimezone()
            found[known] = stamp.date()
        elif commits := log_of(repository, path, newest=1):
            found[known] = commits[0].when.date()
    return found


def days_of(
    snapshot: Snapshot, root: Path, repository: Repository
) -> Callable[[Sequence[Erratum]], dict[str, date]]:
    """Give what finds these days for the faults of pages; each is asked of git once."""
    known: dict[str, date] = {}
    asked: set[str] = set()

    def days(faults: Sequence[Erratum]) -> dict[str, date]:
        new = [fault for fault in faults if fault.id not in asked]
        asked.update(fault.id for fault in new)
        known.update(worded(snapshot, root, repository, new) if new else {})
        return {fault.id: known[fault.id] for fault in faults if fault.id in known}

    return days
