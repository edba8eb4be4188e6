"""The app at the bench: it holds the desk and passes on what the desk tells."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.binding import BindingType
from textual.timer import Timer

from logbook.screens import desk as news
from logbook.screens.bench import Bench
from logbook.screens.desk import COMMIT_AFTER_S, Desk
from logbook.screens.facts import waits_of
from logbook.screens.keys_in_order import KeysInOrder
from logbook.screens.look import THEMES, sentence
from logbook.screens.preferences import read_preferences
from logbook.screens.sheet import Sheet

WATCH_EVERY_S = 1.0


class LogbookApp(KeysInOrder[None]):
    """The logbook of the nearest project from `folder` upward."""

    TITLE = "logbook"
    CSS_PATH = "sheet.tcss"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = []

    def __init__(self, folder: Path) -> None:
        """Open the project of this folder."""
        super().__init__()
        for theme in THEMES:
            self.register_theme(theme)
        wishes = read_preferences()
        self.theme = wishes.theme
        self.set_keymap(wishes.keys)
        self.desk = Desk(self, folder)
        self._remark = wishes.remark
        self._committing: Timer | None = None
        self._waits = 0

    def on_mount(self) -> None:
        """Show the bench, then open the project behind it."""
        self.push_screen(Bench(self.desk))
        self.desk.open()
        self.set_interval(WATCH_EVERY_S, self.desk.watch)

    # -- what the desk tells -----------------------------------------------------

    def _pass_on(self, message: object) -> None:
        for screen in self.screen_stack:
            if isinstance(screen, Sheet) and screen.is_mounted:
                screen.told(message)  # type: ignore[arg-type]

    @on(news.Looked)
    def _looked(self, message: news.Looked) -> None:
        seen = replace(message.glance, waits=self.desk.glance.waits)
        message.glance = self.desk.glance = seen
        self.desk.words = message.words
        self._pass_on(message)
        self._show_standing()

    @on(news.Advised)
    def _advised(self, message: news.Advised) -> None:
        self.desk.advice = message.told
        waits = waits_of(message.told)
        self.desk.glance = replace(self.desk.glance, waits=waits)
        self._pass_on(message)

    @on(news.Written)
    @on(news.Undone)
    def _changed(self, message: news.Written | news.Undone) -> None:
        self._waits += 1
        self.commit_soon()
        self._pass_on(message)
        self._show_standing()

    @on(news.Taken)
    def _taken(self, message: news.Taken) -> None:
        self._waits = message.waits
        self._pass_on(message)
        self._show_standing()

    @on(news.Glimpsed)
    @on(news.NotWritten)
    @on(news.Opened)
    @on(news.NotOpened)
    @on(news.History)
    @on(news.Kept)
    @on(news.Supposed)
    def _told(self, message: object) -> None:
        self._pass_on(message)

    def _show_standing(self) -> None:
        problems = self.desk.glance.problems
        said = f"{problems} problems · " if problems else ""
        git = f"{self._waits} not in git yet" if self._waits else "all in git"
        for screen in self.screen_stack:
            if isinstance(screen, Sheet) and screen.is_mounted:
                screen.show_band(sentence("$said$git", said=said, git=git))

    # -- git ---------------------------------------------------------------------

    def commit_soon(self, after_s: float = COMMIT_AFTER_S) -> None:
        """Let git take what waits, once nothing was saved for a moment."""
        if self._committing is not None:
            self._committing.stop()
        if self.desk.git_waits:
            return
        self._committing = self.set_timer(after_s, self.desk.commit)

    async def action_leave(self) -> None:
        """Leave; a thread that is saving or committing ends its work first."""
        self.desk.commit()
        self.exit()
