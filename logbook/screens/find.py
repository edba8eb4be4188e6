"""Finding any record: by words, by their beginnings, or by a number's value.

The index answers, as it does for the shell. The newest hits are there at once;
where more answer than are shown, the best of the older ones follow behind them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from textual import on, work
from textual.message import Message
from textual.worker import get_current_worker

from logbook.index import query
from logbook.records.kinds.table import KINDS
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.long_work import Stopped
from logbook.screens.desk.lookup import Lookup
from logbook.screens.record.record_words import said_of_record
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.listing import Line, Listing
from logbook.screens.ruled.margin_words import margin_word
from logbook.screens.ruled.moments import day
from logbook.screens.ruled.passage import Say

AT_ONCE = 50
"""Newest hits asked for first; no screen shows more rows."""

MOST = 200
"""Newest hits listed; more letters make it fewer."""

TOLD_EVERY_S = 0.5
"""So often it is said how far the index is that is being built."""

BEST = 50
"""Best hits asked for where there are more; the older ones are listed behind."""


class Find(Choosing):
    """Search from anywhere; the newest that fits comes first."""

    NOTHING = "no record has that"
    ASKS = "words, or a number: 86.42, 3/16 in"
    WAY = "find"

    @dataclass
    class Found(Message):
        """What answers a question; the question comes along."""

        asked: str
        lines: Sequence[Line]

    def __init__(self, desk: Desk, heading: str = "") -> None:
        """Search under this heading."""
        super().__init__(desk, heading)
        self._shown_for: str | None = None

    def told(self, message: Message) -> None:
        """Ask again once there is a project to ask about."""
        super().told(message)
        if isinstance(message, news.Opened) and self._shown_for is None:
            self.narrow(self.query_one(EntryLine).value)

    def on_screen_resume(self) -> None:
        """Show what was found as it is now: it may have been amended meanwhile."""
        super().on_screen_resume()
        if self._shown_for is not None:
            self.follow()
            self.narrow(self.query_one(EntryLine).value)

    def narrow(self, typed: str) -> None:
        """Ask in a thread; the answer to the last question is the one shown."""
        if self.desk.lookup is not None:
            self._look(typed, self.desk.lookup)
        self._show_progress()

    def on_mount(self) -> None:
        """Say now and then how far the index is, until the first answer."""
        super().on_mount()
        self.set_interval(TOLD_EVERY_S, self._show_progress)

    def _show_progress(self) -> None:
        if self._shown_for is not None:
            return
        lookup = self.desk.lookup
        said = progress_words(lookup.read if lookup else None)
        self.query_one(Listing).show([Line("", "", said)])

    @work(thread=True, exclusive=True, group="find")
    def _look(self, typed: str, lookup: Lookup) -> None:
        worker = get_current_worker()
        try:
            for found in answers(lookup, typed):
                if worker.is_cancelled:
                    return
                self.post_message(self.Found(typed, [row_of(one) for one in found]))
        except Stopped as stopped:
            said = f"{stopped}; a letter more begins it anew"
            self.post_message(self.Found(typed, [Line("", "", said)]))

    @on(Found)
    def _show(self, found: Found) -> None:
        if found.asked != self.query_one(EntryLine).value:
            return
        listing = self.query_one(Listing)
        going_on = found.asked == self._shown_for and listing.chosen is not None
        chosen = listing.chosen.key if going_on and listing.chosen else ""
        self._shown_for = found.asked
        listing.show(found.lines, chosen)
        self.follow()

    def about(self, line: Line) -> Sequence[Say]:
        """Say what a record says, before it is opened."""
        record = self.desk.snapshot.by_id(line.key)
        return [*said_of_record(record)] if record else ()

    def choose(self, chosen: Line) -> None:
        """Open the record; coming back leads here again."""
        if chosen.key in self.desk.snapshot:
            self.show_record(chosen.key)
        else:
            self.tell("the records are still being read; Enter again in a moment")


def progress_words(read: tuple[int, int] | None) -> str:
    """Say how far the records are read for the search; going back stops nothing."""
    if read is None:
        return "looking …"
    done, total = read
    return f"reading for the search: {done:,} of {total:,}; Esc goes back, it goes on"


def answers(lookup: Lookup, typed: str) -> Iterator[Sequence[query.Line]]:
    """Give what answers, at first the newest, then all that is listed.

    Each is the one before with more behind it.
    """
    newest = lookup.newest(typed, AT_ONCE)
    yield newest
    if len(newest) < AT_ONCE:
        return
    newest = lookup.newest(typed, MOST)
    yield newest
    if len(newest) == MOST and typed.strip():
        there = {line.id for line in newest}
        older = [line for line in lookup.best(typed, BEST) if line.id not in there]
        yield [*newest, *older]


def row_of(line: query.Line) -> Line:
    """Give the row of a record: its day, its kind, its title."""
    return Line(
        line.id, day(line.when), line.title, margin_word(KINDS[line.kind].shown)
    )
