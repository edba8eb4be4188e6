"""Few records put among many that are in order, without going through the many.

A build may have 100,000 entries; its revisions, gaps and joints are few, and a copy of
all at each save would hold up every key meanwhile.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from typing import TypeVar, overload

from logbook.records.kinds.assembling import Fit, Joint
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build
from logbook.records.together.ordered import age
from logbook.records.together.snapshot import Snapshot

R = TypeVar("R", bound=Record)


class Interleaved(Sequence[Record]):
    """Records in order of time: those of a long sequence, and a few more."""

    __slots__ = ("_few", "_many", "_places")

    def __init__(self, many: Sequence[Record], few: Iterable[Record]) -> None:
        """Put the few where they belong among the many, which are in order."""
        self._many = many
        self._few = sorted(few, key=age)
        self._places = [
            bisect_right(many, age(one), key=age) + at
            for at, one in enumerate(self._few)
        ]

    def __len__(self) -> int:
        """Count all of them."""
        return len(self._many) + len(self._few)

    @overload
    def __getitem__(self, at: int) -> Record: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Record]: ...
    def __getitem__(self, at: int | slice) -> Record | Sequence[Record]:
        """Give one by its place, or those of a slice."""
        if isinstance(at, slice):
            return [self[one] for one in range(*at.indices(len(self)))]
        at += len(self) if at < 0 else 0
        if not 0 <= at < len(self):
            raise IndexError(at)
        before = bisect_left(self._places, at)
        if before < len(self._places) and self._places[before] == at:
            return self._few[before]
        return self._many[at - before]


def made_in(snapshot: Snapshot, build: Build | None) -> list[Record]:
    """Give revisions, gaps and joints stated in work on a build; of none, all."""
    stated: list[Record] = [*snapshot.all(Fit), *snapshot.all(Joint)]
    return [*revisions_in(snapshot, build), *_stated_in(snapshot, build, stated)]


def revisions_in(snapshot: Snapshot, build: Build | None) -> list[Revision]:
    """Give the revisions made in work on a build; of no build, all.

    A part's first issue is none, nor is one that was saved with an entry that tells it.
    """
    every = (one for one in snapshot.all(Revision) if one.follows)
    found = _stated_in(snapshot, build, every)
    return [one for one in found if not _is_told(snapshot, one)]


def _stated_in(
    snapshot: Snapshot, build: Build | None, records: Iterable[R]
) -> list[R]:
    if build is None:
        return [*records]
    return [one for one in records if _worked_on(snapshot, one) is build]


def _worked_on(snapshot: Snapshot, one: Record) -> Build | None:
    """Give the build that was worked on when something was stated.

    What led to it says which; else the last entry before it, or a build begun since.
    """
    for ref in getattr(one, "because", ()):
        led = snapshot.find(ref, Entry)
        if led is not None and (of := snapshot.find(led.build, Build)) is not None:
            return of
    begun = [build for build in snapshot.all(Build) if build.when <= one.when]
    at = bisect_right(snapshot.entries, one.when, key=lambda entry: entry.when)
    while at:
        at -= 1
        entry = snapshot.entries[at]
        of = snapshot.find(entry.build, Build)
        if of is not None:
            later = [build for build in begun if build.when > entry.when]
            return later[-1] if later else of
    return begun[-1] if begun else None


def _is_told(snapshot: Snapshot, revision: Revision) -> bool:
    """Tell whether an entry it is for was saved in the same moment."""
    told = (snapshot.find(ref) for ref in revision.because)
    return any(one is not None and one.when == revision.when for one in told)
