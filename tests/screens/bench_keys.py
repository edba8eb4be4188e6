"""A bench to type at: a real project, the app run headless, its words read back."""

from __future__ import annotations

import re
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from html import unescape
from pathlib import Path
from time import monotonic

from textual.events import Key
from textual.pilot import Pilot

from logbook.project import Project
from logbook.screens.app import LogbookApp
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.run.measure import Measure

SIGNS = {
    " ": "space", ".": "full_stop", ",": "comma", "-": "minus", "/": "slash",
    "[": "left_square_bracket", "]": "right_square_bracket", "=": "equals_sign",
    "@": "at", "±": "plus_minus_sign", "+": "plus", "(": "left_parenthesis",
    ")": "right_parenthesis", "°": "degree_sign", "'": "apostrophe",
}  # fmt: skip


SIGN_OF = {name: sign for sign, name in SIGNS.items()}
"""What a key with a name of its own types."""


def keys(text: str) -> list[str]:
    """Spell a text as the keys that type it."""
    return [SIGNS.get(sign, sign) for sign in text]


class Bench:
    """The app under the hands of a test."""

    def __init__(self, app: LogbookApp, pilot: Pilot[None]) -> None:
        self.app, self.pilot = app, pilot

    @property
    def seen(self) -> str:
        """The words on screen, without style."""
        drawing = self.app.export_screenshot(simplify=True)
        words = re.sub(r"<style.*?</style>|<[^>]+>", "", drawing, flags=re.DOTALL)
        return unescape(words).replace("\xa0", " ")

    @property
    def words(self) -> str:
        """The words on screen as one text, a row that goes on joined to the next."""
        rows = re.sub(r"(?m)^.*?│", " ", self.seen)
        return " ".join(rows.split())

    @property
    def line(self) -> EntryLine:
        return self.app.screen.query_one(EntryLine)

    async def type(self, text: str) -> None:
        """Press the keys of a text one right after the other, as a hand does."""
        for key, sign in zip(keys(text), text, strict=True):
            self.app.post_message(Key(key, sign))
        await self.rest()

    async def press(self, *names: str) -> None:
        """Press keys, each when the one before has done what it does."""
        for name in names:
            sign = name if len(name) == 1 else SIGN_OF.get(name)
            self.app.post_message(Key(name, sign))
            await self.pilot.pause()
        await self.rest()

    async def rest(self) -> None:
        """Wait until every key has done what it does, and nothing is under way.

        Three times in a row every queue must have been gone through and be empty; to
        wait until the processor idles, as a pause without a time does, is much longer,
        and needed once only.
        """
        quiet, end = 0, monotonic() + 120
        while quiet < 3:
            await self.pilot.pause(0 if quiet < 2 else None)
            busy = self._busy()
            assert not busy or monotonic() < end, f"no rest: {busy}"
            quiet = 0 if busy else quiet + 1

    def _busy(self) -> list[str]:
        pumps = [self.app, *self.app.screen.walk_children(with_self=True)]
        busy = [repr(pump) for pump in pumps if pump.message_queue_size]
        return busy if self.app.keys_at_rest else [*busy, "keys"]

    async def settle(self) -> None:
        """Wait for the threads and for what they told."""
        await self.rest()
        while any(not worker.is_finished for worker in self.app.workers):
            await self.app.workers.wait_for_complete()
            await self.rest()

    async def until(self, seen: Callable[[], bool]) -> None:
        """Wait for what comes by a timer of the app, at most a minute."""
        end = monotonic() + 60
        while not seen() and monotonic() < end:
            await self.pilot.pause(0.05)
            await self.settle()
        assert seen()

    async def do(self, *names: str) -> None:
        """Press keys, and wait for what they set going."""
        await self.press(*names)
        await self.settle()

    async def say(self, text: str) -> None:
        """Type a line, take it, and wait until it is on disk."""
        await self.type(text)
        await self.do("enter")


@asynccontextmanager
async def bench(folder: Path, size: tuple[int, int] = (80, 24)) -> AsyncIterator[Bench]:
    """Open the app on a project and wait until it has read it."""
    app = LogbookApp(folder)
    async with app.run_test(size=size) as pilot:
        at = Bench(app, pilot)
        await at.settle()
        yield at


def project(folder: Path) -> Project:
    """Read the project as another program would."""
    return Project.open(folder)


async def measuring(at: Bench, piece: str) -> None:
    """Begin a run on a piece, from the bench."""
    await at.press("f3")
    await at.type(piece)
    await at.press("enter")
    await at.pilot.pause()
    assert isinstance(at.app.screen, Measure)
