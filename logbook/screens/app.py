"""The app at the bench: it holds the desk and passes on what the desk tells.

A start paints the newest entries before anything else is loaded; then comes the
bench. So this module loads as little as it can, and hears the desk's messages
by the names of its methods.
"""

from __future__ import annotations

from asyncio import to_thread
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from textual import events
from textual.binding import BindingType
from textual.driver import Driver
from textual.screen import Screen

from logbook.screens.bench.glimpse import glimpse
from logbook.screens.bench.opening import Opening
from logbook.screens.desk.turns import take_short_turns
from logbook.screens.git_turns import GitTurns
from logbook.screens.leaving import Leaving
from logbook.screens.preferences import read_preferences
from logbook.screens.ruled.keys_in_order import KeysInOrder
from logbook.screens.ruled.look import themes
from logbook.screens.terminal import outliving

if TYPE_CHECKING:  # see above
    from logbook.screens.desk import news
    from logbook.screens.desk.desk import Desk
    from logbook.screens.ruled.sheet import Sheet

WATCH_EVERY_S = 1.0


class LogbookApp(KeysInOrder[None]):
    """The logbook of the nearest project from `folder` upward."""

    TITLE = "logbook"
    CSS_PATH = Path(__file__).parent / "ruled" / "sheet.tcss"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = []

    desk: Desk
    """The desk, once the bench stands."""

    def __init__(self, folder: Path) -> None:
        """Open the project of this folder."""
        super().__init__()
        for theme in themes(self.console.color_system, plain=self.no_color):
            self.register_theme(theme)
        wishes = read_preferences()
        self.theme = wishes.theme
        self.set_keymap(wishes.keys)
        self._folder = folder
        self._remark = wishes.remark
        self._git = GitTurns(self.set_timer, lambda: self.desk)
        self._clock = ""
        self._worked = ""
        self._waits, self._why = 0, ""
        self._early: list[events.Key | events.Paste] | None = []
        tell = lambda said: self.tell_all(said, label="leaving")  # noqa: E731
        self._leaving = Leaving(self, tell, self.note_where)

    # -- starting ----------------------------------------------------------------

    def get_driver_class(self) -> type[Driver]:
        """Draw on a terminal that may go without a word."""
        return outliving(super().get_driver_class())

    def get_default_screen(self) -> Screen[Any]:
        """Give the first paint: the newest entries."""
        return Opening(glimpse(self._folder))

    def on_mount(self) -> None:
        """Set the bench up once the first rows are painted."""
        if not self.is_headless:
            self._leaving.listen()
        take_short_turns()
        self.call_after_refresh(self._begin)

    def go(self, way: str, sheet: Sheet, *about: Any) -> None:
        """Go from a sheet to another screen, by the name of the way there."""
        from logbook.screens.ways import WAYS

        WAYS[way](sheet, *about)

    def _begin(self) -> None:
        self.run_worker(self._set_up(), group="set up")

    async def _set_up(self) -> None:
        """Load everything, show the bench, and open the project behind it."""
        await to_thread(_load)
        from logbook.screens.bench.bench import Bench
        from logbook.screens.desk.desk import Desk

        opening = self.screen
        self.desk = Desk(self, self._folder)
        glimpsed = opening.lines if isinstance(opening, Opening) else ()
        await self.push_screen(Bench(self.desk, glimpsed))
        self.desk.open()
        self.set_interval(WATCH_EVERY_S, self._tick)
        while self._early:
            await super().on_event(self._early.pop(0))
        self._early = None

    async def on_event(self, event: events.Event) -> None:
        """Keep what is typed before there is a line for it."""
        if self._early is not None and isinstance(event, events.Key | events.Paste):
            self._early.append(event)
            return
        if isinstance(event, events.Key):
            self.desk.clock.sign(self.desk.now())
        await super().on_event(event)

    @property
    def keys_at_rest(self) -> bool:
        """Tell whether the bench stands and every key has done what it does."""
        return self._early is None and super().keys_at_rest

    # -- what the desk tells -----------------------------------------------------

    def _sheets(self) -> Iterator[Sheet]:
        from logbook.screens.ruled.sheet import Sheet

        for screen in self.screen_stack:
            if isinstance(screen, Sheet) and screen.is_laid_out:
                yield screen

    def note_where(self) -> None:
        """Note what the screens are in the middle of, the one on top first."""
        if hasattr(self, "desk"):
            under_way = [one.in_the_middle for one in reversed([*self._sheets()])]
            left_off, here = self.desk.standing_in.left_off, self.desk.shown.id
            if left_off.stand(under_way, here, self.desk.now()):
                self._show_standing()

    def _pass_on(self, message: Any) -> None:
        for sheet in self._sheets():
            sheet.told(message)

    def on_looked(self, message: news.Looked) -> None:
        """Keep a new look at the records, and show it."""
        from logbook.screens.desk.last_value import suited_last
        from logbook.screens.desk.news import BegunElsewhere

        known, told = self.desk.glance, self.desk.advice
        before = {build.id for build in known.builds}
        begun = [
            build.title
            for build in message.glance.builds
            if build.id not in before and not self.desk.wrote_here(build)
        ]
        build = self.desk.build or message.glance.build
        last = suited_last(told, message.snapshot, build, message.glance.last)
        seen = replace(
            message.glance,
            waits=known.waits,
            unseen=known.unseen,
            rejected=known.rejected,
            amiss=known.amiss,
            first_amiss=known.first_amiss,
            last=last,
        )
        message.glance = self.desk.glance = seen
        self.desk.words = message.words.on(self.desk.day)
        self._pass_on(message)
        self._show_standing()
        here = message.glance.build.title if message.glance.build else ""
        if before and begun and here not in begun:
            self._pass_on(BegunElsewhere(begun[-1]))

    def on_elsewhere(self, message: news.Elsewhere) -> None:
        """Show in which builds other windows stand."""
        self._pass_on(message)
        self._show_standing()

    def on_advised(self, message: news.Advised) -> None:
        """Keep new advice, and show it."""
        from logbook.screens.desk.glance import (
            first_of,
            rejected_of,
            unseen_of,
            waits_of,
        )
        from logbook.screens.desk.last_value import suited_last

        self.desk.advice, self.desk.advised = message.told, (message.build,)
        self.desk.glance = replace(
            self.desk.glance,
            waits=waits_of(message.told, message.snapshot, message.build),
            unseen=unseen_of(message.told),
            rejected=rejected_of(message.told),
            amiss=len(message.told.problems),
            first_amiss=first_of(message.told.problems),
            last=suited_last(
                message.told, message.snapshot, message.build, self.desk.glance.last
            ),
        )
        self._pass_on(message)
        self._show_standing()

    def _changed(self, message: news.Written | news.Undone) -> None:
        self._waits += 1
        self._git.soon()
        self._pass_on(message)
        self._show_standing()

    on_written = on_undone = _changed

    def on_taken(self, message: news.Taken) -> None:
        """Show what git has taken."""
        self._waits = message.waits
        if message.waits:
            self._git.again()
        # Once: the band counts what waits, and names a merge or the like by itself.
        why = message.sentence if message.waits and not self.desk.unfinished else ""
        if why and why != self._why:
            for sheet in self._sheets():
                said = why if why.startswith("git ") else f"git: {why}"
                sheet.tell_beside(said, label="git")
        self._why = why or (self._why if message.waits else "")
        self._pass_on(message)
        self._show_standing()

    def on_opened(self, message: news.Opened) -> None:
        """Say once what of the settings could not be used."""
        self._pass_on(message)
        if self._remark:
            self.tell_all(self._remark, label="settings")
            self._remark = ""

    def tell_all(self, words: str, *, label: str) -> None:
        """Say a sentence on every screen that is open."""
        for sheet in self._sheets():
            sheet.tell(words, label=label)

    on_not_written = on_not_opened = on_read_again = _pass_on
    on_taken_over = on_let_go = on_advised_so_far = _pass_on
    on_brought_up = on_history = on_kept = on_supposed = on_impact = on_to_undo = (
        _pass_on
    )

    def _tick(self) -> None:
        """Look for changes from outside, at the clock, and at the terminal."""
        self._leaving.look()
        self.note_where()
        self.desk.watch()
        working = self._working()
        clock = self.desk.clock_words()
        if (working, clock) != (self._worked, self._clock):
            self._worked = working
            self._show_standing()

    def _working(self) -> str:
        """Say what takes long, how far it is, and which key stops it."""
        work = self.desk.works.said
        sheet = next(reversed([*self._sheets()]), None)
        if work is None or sheet is None:
            return ""
        from logbook.screens.ruled.verbs import LEAVE, STOP

        key = sheet.mapped_keys()(STOP if work.can_stop else LEAVE)
        return f"{work.words} · {key} {'stops it' if work.can_stop else 'leaves'}"

    def _show_standing(self) -> None:
        from logbook.screens.ruled.standing_words import standing_words

        self._clock = self.desk.clock_words()
        self.desk.standing = standing_words(self.desk, self._waits, self._worked)
        for sheet in self._sheets():
            sheet.show_band()

    # -- leaving -----------------------------------------------------------------

    def action_leave(self) -> None:
        """Leave, once what was typed and taken is on disk and in git."""
        self._leaving.leave()

    async def action_quit(self) -> None:
        """Leave; Textual's own key for it comes here from any screen."""
        self.action_leave()

    def on_unmount(self) -> None:
        """Keep what is being typed, however the app comes to its end."""
        if hasattr(self, "desk"):
            self.desk.close()


def _load() -> None:
    """Load what the bench needs, which takes half a second, beside the event loop."""
    import logbook.screens.bench.bench
    import logbook.screens.ways  # noqa: F401
    from logbook.plain.lines import prepare

    prepare()
