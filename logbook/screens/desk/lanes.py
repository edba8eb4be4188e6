"""Work that is done by one thread at a time, without keeping others waiting for it.

Threads are few. One that waited behind another would be missed where an entry is
to be saved: whoever finds a lane busy leaves his work there, and goes.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from threading import Lock

Work = Callable[[], None]


class Lane:
    """Work of one sort, done in the order it came."""

    def __init__(self) -> None:
        """Begin with nothing to do."""
        self._lock = Lock()
        self._waiting: deque[Work] = deque()
        self._busy = False

    @property
    def at_rest(self) -> bool:
        """Tell whether everything that was left here is done."""
        with self._lock:
            return not self._busy and not self._waiting

    def do(self, work: Work) -> None:
        """Do it now, and what comes meanwhile; leave it to the thread that is at it."""
        self._take(work, again=True)

    def once(self, work: Work) -> None:
        """Do it as `do` does, unless the very same is waiting to be done."""
        self._take(work, again=False)

    def _take(self, work: Work, *, again: bool) -> None:
        with self._lock:
            if again or work not in self._waiting:
                self._waiting.append(work)
            if self._busy:
                return
            self._busy = True
        try:
            while (following := self._next()) is not None:
                following()
        except BaseException:
            self._busy = False
            raise

    def _next(self) -> Work | None:
        with self._lock:
            if self._waiting:
                return self._waiting.popleft()
            self._busy = False
            return None
