"""What is being typed comes to the disk while it is typed, beside the keys.

The first letter goes at once, those behind it together, so often that hardly more
than a word is lost whatever happens to the machine.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from pathlib import Path
from time import monotonic

from textual.timer import Timer

from logbook.errors import LogbookError
from logbook.screens.desk.behind import Behind
from logbook.screens.desk.lanes import Lane
from logbook.screens.desk.news import Kept, LetGo, TakenOver
from logbook.screens.desk.slips import BENCH, Slip, Slips
from logbook.store.reading.find import find_project
from logbook.store.typed.drafts import Draft

KEEP_EVERY_S = 0.3
"""While somebody types, what stands in the line goes to the disk so often."""


class Keeping:
    """The lines of one desk on their way to the disk."""

    def __init__(self, behind: Behind, writing: Callable[[], bool]) -> None:
        """Keep the lines of this desk; `writing` tells if one is becoming a record."""
        self._behind = behind
        self._slips = Slips(lambda said: behind.post(Kept(said)), writing)
        self._lane = Lane()
        self._elsewhere: dict[str, Slip] = {}
        self._due: Timer | None = None
        self._last = 0.0

    def soon(self, text: str, purpose: str) -> None:
        """Keep what stands in a line in time; nothing: it was taken."""
        self._slips.want(purpose, text)
        if self._due is not None:
            return
        wait = self._last + KEEP_EVERY_S - monotonic()
        if wait > 0:
            self._due = self._behind.later(wait, self._go)
        else:
            self._go()

    def now(self, text: str, purpose: str) -> None:
        """Keep it without waiting, because the line goes away."""
        self._slips.want(purpose, text)
        self._go()

    def emptied(self, text: str, purpose: str) -> None:
        """Keep a line that was emptied by hand among the drafts."""
        self._slips.empty(purpose, text)
        self._go()

    def _go(self) -> None:
        if self._due is not None:
            self._due.stop()
        self._due, self._last = None, monotonic()
        self._behind.run(self.in_turn, "drafts")

    def in_turn(self) -> None:
        """Bring to the disk what is wanted, in this thread or the one that is at it."""
        self._lane.once(self.all)

    def all(self) -> None:
        """Bring everything wanted to the disk before this returns."""
        self._slips.keep(self.root)

    def hand_over(self) -> None:
        """Bring everything wanted to the disk for whoever comes next; we go away."""
        self._slips.hand_over(self.root)

    # -- lines that come back, and lines of other windows ----------------------------

    def left_over(self, purpose: str = BENCH) -> Draft | None:
        """Give what was being typed in a line when it went away, the newest.

        What another window has is not given; it is `elsewhere` then.
        """
        slip = self._slips.left_over(self.root, purpose)
        self._elsewhere.pop(purpose, None)
        if slip is None:
            return None
        if slip.owner:
            self._elsewhere[purpose] = slip
            return None
        self._claim()
        return slip.draft

    def elsewhere(self, purpose: str = BENCH) -> Slip | None:
        """Give what is being typed in a line of another window, as it was last seen."""
        return self._elsewhere.get(purpose)

    def take_over(self, purpose: str = BENCH) -> Slip | None:
        """Take over what another window has; None where it has let go of it by now."""
        slip = self._elsewhere.pop(purpose, None)
        taken = self._slips.take_over(self.root, slip) if slip else None
        self._claim()
        return taken

    def _claim(self) -> None:
        """Bring to the disk whose a line is, beside the keys."""
        try:
            asyncio.get_running_loop()
        except RuntimeError:  # this is a thread already
            self.in_turn()
        else:
            self._go()

    def watch(self) -> None:
        """Look which lines went to another window, and which were let go there."""
        for purpose, text in self._slips.gone(self.root):
            self._behind.post(TakenOver(purpose, text))
        for purpose, slip in [*self._elsewhere.items()]:
            if not self._slips.is_elsewhere(self.root, slip):
                self._elsewhere.pop(purpose, None)
                self._behind.post(LetGo(purpose))

    @property
    def root(self) -> Path:
        """Give the project's folder; without a logbook that of the one started here."""
        if self._behind.is_open:
            return self._behind.project.root
        try:
            return find_project(self._behind.folder).parent
        except LogbookError:
            return self._behind.folder.resolve()
