"""Work that takes its time: what it is, how far it is, and how it is stopped.

It is done in threads or in child processes. What takes longer than a moment is said in
the band of every screen, in one manner. Stopping it leaves all as it was: it gives up
what it has worked out so far, and nothing of that is written.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from threading import Lock
from time import monotonic

from logbook.errors import Refused

SAID_AFTER_S = 1.0
"""Work that is over sooner is not worth a word."""


class Stopped(Refused):
    """Work was stopped by hand before it was done; nothing of it is written."""


@dataclass
class LongWork:
    """One piece of work under way.

    `how_far` gives what is said of its progress; empty where nothing is known of it.
    `stop` ends it sooner, where waiting for its next check would take long.
    """

    what: str
    how_far: Callable[[], str] = lambda: ""
    stop: Callable[[], None] | None = None
    can_stop: bool = True
    began: float = field(default_factory=monotonic)
    stopped: bool = False

    def check(self) -> None:
        """Give up where it was stopped meanwhile.

        Raises:
            Stopped: it was.
        """
        if self.stopped:
            raise Stopped(f"{self.what}: stopped, nothing was written")

    @property
    def words(self) -> str:
        """Say what it is and how far."""
        far = self.how_far()
        return f"{self.what}: {far}" if far else f"{self.what} …"


class LongWorks:
    """All work under way on one desk."""

    def __init__(self) -> None:
        """Start with none."""
        self._lock = Lock()
        self._under_way: list[LongWork] = []

    @contextmanager
    def doing(self, work: LongWork) -> Iterator[LongWork]:
        """Do it here; it is known of until this is over."""
        with self._lock:
            self._under_way.append(work)
        try:
            yield work
        finally:
            with self._lock:
                self._under_way.remove(work)

    @property
    def said(self) -> LongWork | None:
        """The work to speak of: what takes long already, the one begun last."""
        late = monotonic() - SAID_AFTER_S
        with self._lock:
            found = [one for one in self._under_way if one.began <= late]
        return found[-1] if found else None

    def stop(self) -> LongWork | None:
        """Stop the work that is spoken of, if it can be; give it."""
        work = self.said
        if work is None or not work.can_stop:
            return None
        work.stopped = True
        if work.stop is not None:
            work.stop()
        return work


def counted(read: tuple[int, int] | None) -> str:
    """Say how many of how many."""
    return f"{read[0]:,} of {read[1]:,}" if read else ""
