"""Noticing that records changed outside: an editor's save, a pull, a checkout.

Folder times are cheap and all are looked at each time; the files of a folder
whose time changed are. The files of the others are looked at by turns, as many
as cost no more than a small share of the time.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator
from pathlib import Path
from time import monotonic

from logbook.records.kinds.place import FOLDER
from logbook.store.reading.find import (
    Signature,
    folder_times,
    record_files_in,
    signatures,
)

TURN_S = 0.02
"""So long each look goes on with the folders whose time did not change."""


class Watch:
    """What the record files below `root`/as-built looked like when last looked at."""

    def __init__(self, root: Path) -> None:
        """Take the present state as known."""
        self._folder = root / FOLDER
        self._times: dict[str, int] = {}
        self._seen: dict[str, dict[str, Signature]] = {}
        self._turns: deque[str] = deque()
        for _ in self._changed():
            pass

    def changed(self, *, by_turns: bool = True) -> tuple[str, ...]:
        """Give the paths, from the project's folder, that changed since last time.

        Without `by_turns` only folders whose time changed are looked at: enough for
        what was saved by a program of ours, which renames each file into its place.
        """
        found = {f"{FOLDER}/{path}" for path in self._changed(by_turns=by_turns)}
        return tuple(sorted(found))

    def _changed(self, *, by_turns: bool = True) -> Iterator[str]:
        try:
            times = folder_times(self._folder)
        except OSError:
            return
        before, self._times = self._times, times
        every = before.keys() | times.keys()
        touched = {name for name in every if before.get(name) != times.get(name)}
        yield from self._look(touched)
        if by_turns:
            yield from self._look(self._by_turns(touched))

    def _by_turns(self, touched: set[str]) -> Iterator[str]:
        """Give the folders whose turn it is, until the time for it is over."""
        end = monotonic() + TURN_S
        if not self._turns:
            self._turns.extend(self._times)
        while self._turns and monotonic() < end:
            name = self._turns.popleft()
            if name not in touched:
                yield name

    def _look(self, folders: Iterable[str]) -> Iterator[str]:
        """Look at the files of folders; give those that came, went or changed."""
        for name in folders:
            before = self._seen.pop(name, {})
            now = signatures(self._folder, record_files_in(self._folder, name))
            if now:
                self._seen[name] = now
            yield from (path for path in before if now.get(path) != before[path])
            yield from (path for path in now if path not in before)
