"""The index behind the screens: kept up with the files, and asked by search.

Opened, and built where there is none, by whoever needs it first; all of it in
threads of the desk and of search, never beside a key.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from threading import Lock

from logbook.index.catalogue import Index
from logbook.index.catch_up import in_child
from logbook.index.query import Line
from logbook.screens.desk.long_work import LongWork, LongWorks, counted

MANY = 100
"""Files from which on a child takes them in, since it takes its time to start."""


class _GivenUp(Exception):  # no refusal of the index's own
    """Reading for the index was stopped by hand."""


class Lookup:
    """The index of one project, as far as the screens need it.

    While it is built, `read` tells how many files of how many were read.
    """

    def __init__(self, root: Path, place: Path, works: LongWorks | None = None) -> None:
        """Keep the index of the project in `root` at `place`; nothing is opened yet.

        Building it is one of the `works` that can be stopped; it is begun anew by
        whoever needs it next.
        """
        self._root, self._place = root, place
        self._works = works or LongWorks()
        self._opening = Lock()
        self._index: Index | None = None
        self._work = LongWork("")
        self.read: tuple[int, int] | None = None

    @property
    def _open(self) -> Index:
        with self._opening:
            if self._index is None:
                self._index = self._built()
            return self._index

    def _built(self) -> Index:
        """Open the index, built where there is none, and bring it up to date.

        Raises:
            Stopped: somebody did not want to wait for it.
        """
        work = self._work = LongWork("reading for the search", self._how_far)
        try:
            with self._works.doing(work):
                index = Index.open(self._root, self._place, self._count)
                work.check()
                index.bring_up_to_date()
        except _GivenUp:
            work.check()
            raise
        finally:
            self.read = None
        return index

    def _how_far(self) -> str:
        return counted(self.read)

    def _count(self, done: int, total: int) -> None:
        self.read = done, total
        if self._work.stopped:
            raise _GivenUp

    def close(self) -> None:
        """Let go of the index."""
        with self._opening:
            if self._index is not None:
                self._index.close()
                self._index = None

    def catch_up(self) -> None:
        """Take in whatever changed on disk."""
        if self._index is None:
            _ = self._open
        else:
            self._index.bring_up_to_date()

    def take_in(self, paths: Iterable[str]) -> None:
        """Take in these files, relative to the project, as they are now.

        Without an index they wait for the one that is made.
        """
        with self._opening:
            index = self._index
        if index is None:
            return
        changed = tuple(paths)
        many = len(changed) > MANY and not index.in_memory
        if not (many and in_child(self._root, self._place)):
            index.take_in(changed)

    def newest(self, typed: str, most: int) -> Sequence[Line]:
        """Give the newest records that answer what was typed, newest first."""
        return self._open.search(typed, limit=most)

    def best(self, typed: str, most: int) -> Sequence[Line]:
        """Give the records that answer it best, the best first."""
        return self._open.ranked(typed, limit=most)
