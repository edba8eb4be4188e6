"""When git is given what waits: at rest, so that a burst of entries is one pass.

It is loaded with the app, before the first rows are painted.
"""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic
from typing import TYPE_CHECKING

from textual.timer import Timer

if TYPE_CHECKING:  # loaded once the first rows are painted
    from logbook.screens.desk.desk import Desk

AFTER_S = 1.0
"""Rest after a save before git is given it, so that a burst is one pass."""
WITHIN_S = 4.0
"""Git is given what waits after so long, however long the burst is."""
AGAIN_S = 5.0
"""Rest before git is asked again to take what it could not take."""


class GitTurns:
    """The next time git is given what waits on a desk: `by` then at the latest."""

    def __init__(
        self,
        later: Callable[[float, Callable[[], None]], Timer],
        desk: Callable[[], Desk],
    ) -> None:
        """Do it by timers made with `later`, on the desk there is then."""
        self._later, self._desk = later, desk
        self._timer: Timer | None = None
        self.by = 0.0

    def soon(self) -> None:
        """Let git take what waits, once nothing was saved for a moment."""
        if self._timer is not None:
            self._timer.stop()
        if self._desk().git_waits:
            return
        now = monotonic()
        self.by = self.by or now + WITHIN_S
        after_s = min(AFTER_S, self.by - now)
        if after_s > 0:
            self._timer = self._later(after_s, self._commit)
        else:  # a timer whose moment has come already never calls
            self._commit()

    def again(self) -> None:
        """Ask git once more after a while, unless it is to be asked sooner."""
        if self._timer is None:
            self._timer = self._later(AGAIN_S, self._commit)

    def _commit(self) -> None:
        self._timer, self.by = None, 0.0
        if not self._desk().git_waits:
            self._desk().commit()
