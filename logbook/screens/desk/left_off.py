"""What this window is in the middle of, and what the one before it was left in.

Both are kept on disk, so that a window that was closed, or fell, is gone back to by one
key: a run at the size it stood at, a job sheet at its box, a fact being amended.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from logbook.store.typed.left_off import LeftOff, note_left_off, take_left_off


@dataclass(frozen=True, slots=True)
class Midst:
    """What a screen is in the middle of, and the way that leads back there.

    `purpose` is what its line is kept as; `what` says it, as the bench does.
    """

    way: str
    about: tuple[Any, ...]
    purpose: str
    what: str


class LeavingOff:
    """What a window is in the middle of, and what is still to be gone back to."""

    def __init__(self) -> None:
        """Be in the middle of nothing."""
        self._root: Path | None = None
        self._before: tuple[LeftOff, ...] = ()
        self._now: tuple[LeftOff, ...] = ()
        self._noted: tuple[LeftOff, ...] = ()

    def open(self, root: Path) -> None:
        """Take over what a window of this project was in when it went away."""
        self._before, self._root = take_left_off(root), root
        self.note()

    @property
    def offered(self) -> LeftOff | None:
        """What was left off last and not gone on with; None: nothing."""
        return next(iter(self._before), None)

    @property
    def count(self) -> int:
        """How many things were left off and not gone on with."""
        return len(self._before)

    def stand(self, midsts: Sequence[Midst | None], build: str, now: datetime) -> bool:
        """See what the screens are in the middle of, the one on top first.

        What was left off there is gone on with. Tells whether what is offered changed.
        """
        known = {(one.way, one.about, one.what): one for one in self._now}
        self._now = tuple(
            known.get((one.way, one.about, one.what))
            or LeftOff(one.way, one.about, one.purpose, one.what, build, now)
            for one in midsts
            if one is not None
        )
        here = {one.purpose for one in self._now}
        before = self._before
        self._before = tuple(one for one in before if one.purpose not in here)
        return self._before != before

    def drop(self, gone: LeftOff) -> None:
        """Offer it no more."""
        self._before = tuple(one for one in self._before if one is not gone)

    def note(self) -> None:
        """Bring it to the disk, in a thread."""
        rows = (*self._now, *self._before)
        if self._root is not None and rows != self._noted:
            note_left_off(self._root, rows)
            self._noted = rows
