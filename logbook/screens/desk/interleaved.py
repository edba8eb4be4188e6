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
    """Give revisions, gaps and joints made while a build was newest; of none, all."""
    stated: list[Record] = [*snapshot.all(Fit), *snapshot.all(Joint)]
    return [*revisions_in(snapshot, build), *_while_newest(snapshot, build, stated)]


def revisions_in(snapshot: Snapshot, build: Build | None) -> list[Revision]:
    """Give the revisions made while a build was the newest; of no build, all.

    A part's first issue is none, nor is one that was saved with an entry that tells it.
    """
    every = (one for one in snapshot.all(Revision) if one.follows)
    found = _while_newest(snapshot, build, every)
    return [one for one in found if not _is_told(snapshot, one)]


def _while_newest(
    snapshot: Snapshot, build: Build | None, records: Iterable[R]
) -> list[R]:
    builds = snapshot.all(Build)
    at = builds.index(build) if build in builds else -1
    ends = [one.when for one in builds[at + 1 : at + 2]] if build else []
    return [
        one
        for one in records
        if (build is None or one.when >= build.when)
        and not any(one.when >= end for end in ends)
    ]


def _is_told(snapshot: Snapshot, revision: Revision) -> bool:
    """Tell whether an entry it is for was saved in the same moment."""
    told = (snapshot.find(ref) for ref in revision.because)
    return any(one is not None and one.when == revision.when for one in told)
