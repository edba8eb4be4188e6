"""Entries that are dated before the build they belong to began."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build
from logbook.records.together.snapshot import Snapshot


def before_their_build(snapshot: Snapshot, records: Iterable[Record]) -> Iterator[str]:
    """Say of each build that entries are dated before it began, which is no refusal.

    What was done to a piece beforehand may well belong to it; more often the day, or
    the build, is another one.
    """
    every = list(records)
    made = {one.id: one for one in every if isinstance(one, Build)}
    said: set[str] = set()
    for entry in every:
        if not isinstance(entry, Entry) or entry.build is None:
            continue
        build = made.get(entry.build.id) or snapshot.find(entry.build, Build)
        if build is None or entry.when >= build.when or build.id in said:
            continue
        said.add(build.id)
        dated, began = (one.when.astimezone() for one in (entry, build))
        yield (
            f"dated {dated:%d %b %H:%M}, before {build.title} began "
            f"({began:%d %b %H:%M})"
        )
