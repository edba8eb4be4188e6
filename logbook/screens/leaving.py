"""Leaving: what is typed is kept, what was taken is on disk, git has taken what waits.

None of it is waited for without end; what is left is said in the shell. A signal to
go, or a terminal that was closed, is leaving too, with less patience.
"""

from __future__ import annotations

import _thread
import asyncio
import os
import signal
import sys
from collections.abc import Callable
from contextlib import suppress
from threading import Timer
from time import monotonic
from types import FrameType
from typing import TYPE_CHECKING

from rich.text import Text

from logbook.screens.ruled.keys_in_order import KeysInOrder

if TYPE_CHECKING:  # this is there before the first rows are painted
    from logbook.screens.desk.desk import Desk

PATIENCE_S = 10.0
"""A disk and a git that are slow are waited for so long when a user leaves."""
HASTE_S = 3.0
"""So long when the terminal is gone or the machine goes down."""
LOOK_AGAIN_S = 0.02
SIGNALS = tuple(
    number
    for name in ("SIGTERM", "SIGHUP")
    if (number := getattr(signal, name, None)) is not None
)
WAITING = "leaving once git has what was logged; the key again leaves at once"
NOT_DONE = "git was not done in time; what is not in it yet: logbook commit"
NOT_ON_DISK = "the disk was not done in time; the last lines are in: logbook drafts"


class Leaving:
    """How one app is left."""

    def __init__(
        self,
        app: KeysInOrder[None],
        tell: Callable[[str], None],
        note_where: Callable[[], None],
    ) -> None:
        """Leave this app; `tell` says on it what is waited for.

        `note_where` notes what it is in the middle of.
        """
        self._app, self._tell, self._note_where = app, tell, note_where
        self._under_way = False
        self._had_terminal = False

    @property
    def _desk(self) -> Desk | None:
        return getattr(self._app, "desk", None)

    # -- by a key ----------------------------------------------------------------

    def leave(self) -> None:
        """Leave once everything is where it belongs; the second time at once."""
        self._note_where()
        if self._under_way or self._desk is None:
            self._app.exit(message=self._left())
            return
        self._under_way = True
        self._app.run_worker(self._go(self._desk, PATIENCE_S), group="leave")

    async def _go(self, desk: Desk, patience_s: float, code: int = 0) -> None:
        end = monotonic() + patience_s
        await _until(lambda: self._app.keys_at_rest, min(end, monotonic() + 1))
        self._tell(WAITING)
        await asyncio.to_thread(desk.keeping.all)
        said = ""
        if not await _until(lambda: desk.at_rest, end):
            said = NOT_ON_DISK
        elif desk.is_open:
            git = asyncio.ensure_future(asyncio.to_thread(desk.git.commit_now))
            await asyncio.wait({git}, timeout=max(end - monotonic(), 0))
            if not (git.done() and await _until(lambda: desk.git.at_rest, end)):
                said = NOT_DONE
        self._app.exit(return_code=code, message=Text(said) if said else self._left())

    def _left(self) -> Text | None:
        """Say what git has not taken and how it does."""
        git = self._desk.git if self._desk else None
        if git is None or not git.waits:
            return None
        why = f" ({git.why})" if git.why else ""
        return Text(f"{git.waits} not in git yet: logbook commit{why}")

    # -- because the terminal or the machine goes --------------------------------

    def listen(self) -> None:
        """Hear the signals to go; a terminal that is closed sends one."""
        self._had_terminal = sys.__stdin__ is not None and sys.__stdin__.isatty()
        loop = asyncio.get_running_loop()
        for number in SIGNALS:
            with suppress(NotImplementedError, RuntimeError, ValueError):
                loop.add_signal_handler(number, self.called_away, number)
                signal.signal(number, self._heard)  # the loop is woken all the same

    def _heard(self, number: int, _frame: FrameType | None) -> None:
        """Begin with what must not wait for the loop, which may be stuck drawing."""
        _thread.start_new_thread(self._save, (128 + number,))

    def _save(self, code: int) -> None:
        """Keep what is typed, and end in any case, in a thread of its own."""
        last = Timer(2 * HASTE_S, os._exit, (code,))
        last.daemon = True
        last.start()
        if self._desk is not None:
            self._desk.keeping.hand_over()

    def look(self) -> None:
        """Look whether the terminal has gone without a word."""
        if self._had_terminal and not os.isatty(0):
            self._had_terminal = False
            self._heard(signal.SIGHUP, None)
            self.called_away(signal.SIGHUP)

    def called_away(self, number: int) -> None:
        """Keep what is typed before anything else, then leave."""
        desk = self._desk
        if desk is not None:
            desk.keeping.hand_over()
            self._note_where()
        if number != signal.SIGTERM:
            _let_go_of_terminal()
        code = 128 + number
        if desk is None or self._under_way:
            self._app.exit(return_code=code)
            return
        self._under_way = True
        self._app.run_worker(self._go(desk, HASTE_S, code), group="leave")


async def _until(holds: Callable[[], bool], end: float) -> bool:
    """Wait until it holds, at most until a moment; tell whether it does."""
    while not holds():
        if monotonic() >= end:
            return False
        await asyncio.sleep(LOOK_AGAIN_S)
    return True


def _let_go_of_terminal() -> None:
    """Read and write nowhere from now on: a terminal that is gone refuses both.

    What is read from stays silent, what is written is dropped. A read that was just
    going to begin would never return: it gets the half of a letter, which is nothing.
    """
    silent, kept_open = os.pipe()
    os.write(kept_open, "é".encode()[:1])
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(silent, 0)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)
