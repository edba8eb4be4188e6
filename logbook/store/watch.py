"""Noticing that records changed outside: an editor's save, a pull, a checkout.

Folder times are cheap and are looked at each time; every file is looked at too,
as often as it costs no more than a small share of the time.
"""

from __future__ import annotations

import time
from pathlib import Path

from logbook.records.place import FOLDER
from logbook.store.find import (
    Signature,
    folder_times,
    record_files,
    signatures,
)

SHARE = 50
"""A look at every file rests at least this many times as long as it took."""


class Watch:
    """What the record files below `root`/as-built looked like when last looked at."""

    def __init__(self, root: Path) -> None:
        """Take the present state as known."""
        self._folder = root / FOLDER
        self._times: dict[str, int] = {}
        self._seen: dict[str, Signature] = {}
        self._rests_until = 0.0
        self.changed()

    def changed(self) -> tuple[str, ...]:
        """Give the paths, from the project's folder, that changed since last time."""
        try:
            times = folder_times(self._folder)
        except OSError:
            return ()
        if times == self._times and time.monotonic() < self._rests_until:
            return ()
        began = time.monotonic()
        now = signatures(self._folder, record_files(self._folder))
        before, self._seen, self._times = self._seen, now, times
        took = time.monotonic() - began
        self._rests_until = time.monotonic() + took * SHARE
        differing = {path for path in before if now.get(path) != before[path]}
        differing.update(path for path in now if path not in before)
        return tuple(sorted(f"{FOLDER}/{path}" for path in differing))
