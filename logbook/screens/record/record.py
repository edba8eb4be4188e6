"""One record: its facts, prose and file, what mentions it, how it came to be.

Arrows move between its facts and the records it is joined to. Enter on a fact
edits it in the line below; Enter on another record opens that one. Words typed are
for the row they name, or the one the arrow was brought to.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input

from logbook.errors import Problem
from logbook.records.kinds.table import kind_of
from logbook.records.together.shown import Changed
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.to_other_build import MOVED
from logbook.screens.record.amending import can_amend, frozen
from logbook.screens.record.amending_sheet import MINE, AmendingSheet
from logbook.screens.record.amendment import held, word_of
from logbook.screens.record.record_rows import (
    fact_of,
    rows_of_history,
    rows_of_record,
    said_of_row,
)
from logbook.screens.record.row_meant import row_named, which_row
from logbook.screens.record.undo_here import GONE
from logbook.screens.ruled import verbs
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.halves import Halves
from logbook.screens.ruled.listing import Listing
from logbook.screens.ruled.moments import day
from logbook.screens.ruled.passage import Passage, Say
from logbook.screens.ruled.rows import Row
from logbook.store.git.history import LogLine

AMEND = verbs.Verb("choose", "amend or open", "enter", "Amend the fact, or open it.")
BACK_HERE = replace(
    verbs.UNDO,
    purpose="Say which entry of this record would be taken back; again: do it.",
)


class RecordSheet(AmendingSheet):
    """A record with everything that is known of it."""

    CSS_PATH = Path(__file__).parent / "record.tcss"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        AMEND,
        verbs.Verb("move(-1)", "up", "up", "Go up.", in_strip=False),
        verbs.Verb("move(1)", "down", "down", "Go down.", in_strip=False),
        verbs.Verb("move(-10)", "far up", "pageup", "Go far up.", in_strip=False),
        verbs.Verb("move(10)", "far down", "pagedown", "Go far down.", in_strip=False),
        MINE, verbs.BACK, BACK_HERE, *verbs.EVERYWHERE, verbs.BRING_BACK,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    def __init__(self, desk: Desk, record_id: str) -> None:
        """Show the record with this id."""
        super().__init__(desk, record_id)
        self._path = ""
        self._history: tuple[LogLine, ...] | None = ()
        self._changes: tuple[tuple[Changed, ...], ...] = ()
        self._asked = self._brought = False

    @property
    def heading(self) -> str:
        """The kind of the record."""
        if self.record is None:
            return "cannot be read" if self._problem() else "gone"
        return kind_of(self.record).shown

    def _problem(self) -> Problem | None:
        """Give why its file cannot be read; none where there is no such file."""
        found = self.desk.snapshot.problems
        return next((one for one in found if one.file == self._path), None)

    def body(self) -> ComposeResult:
        """Lay out title, everything known, and the line."""
        yield Row("", id="title")
        yield Halves(GONE)
        yield Row("", id="question")
        yield Row("amend ›", EntryLine("", id="line"), id="say")

    def on_mount(self) -> None:
        """Show the record and ask git about it."""
        super().on_mount()
        self.query_one(EntryLine).focus()
        self.show()
        self.desk.history(self.record_id)
        self.offer()

    def told(self, message: Message) -> None:
        """Follow what changes."""
        match message:
            case news.History(record_id=self.record_id):
                self._history, self._asked = message.lines, True
                self._changes = message.changes
                self.show()
            case news.Looked():
                self.show()
                self.was_changed()
            case news.NotWritten() if self.sent and message.job is self.sent[0]:
                self.give_back(*self.sent[1:], message.reason)
            case news.ToUndo():
                self.announce(message)
            case news.Taken():
                self.desk.history(self.record_id)
            case news.Written() if message.job.subject.startswith(("amend: ", MOVED)):
                told = (message.job.told, message.also)
                self.tell(" · ".join(filter(None, told)), label="on disk")
            case _:
                super().told(message)

    # -- what is shown -----------------------------------------------------------

    def show(self) -> None:
        """Show the record as it is now, the arrow where it was."""
        record, facts = self.record, self.query_one(Listing)
        kept = facts.chosen.key if facts.chosen else ""
        self.show_band()
        if record is None:
            facts.show_nothing(self._why_gone())
            facts.show(())
            return
        self._path = self.desk.snapshot.path(record)
        self.query_one("#title", Row).say(record.title, day(record.when))
        rows = [*rows_of_record(self.desk.snapshot, record)]
        if self._asked:
            rows += rows_of_history(self._history, record.title, self._changes)
        facts.show(rows, kept)
        self.follow()

    def _why_gone(self) -> str:
        """Say why there is no record to show: taken back, or not to be read."""
        problem = self._problem()
        if problem is None:
            return GONE
        self.tell(str(problem), label="problem")
        if problem.found == "a merge conflict":
            return "both sides of a merge are in its file: it waits to be settled"
        return "its file cannot be read as it is now; nothing of it is lost"

    # -- moving and amending -----------------------------------------------------

    def action_move(self, by: int) -> None:
        """Move the arrow; an edit not yet taken stays as it is."""
        self.hold_back()
        if self.opened is not None and self.query_one(EntryLine).value:
            self.tell("Enter takes the change, Esc drops it")
            return
        self._brought = True
        self.query_one(Listing).move(by)
        self.follow()

    def follow(self) -> None:
        """Say what Enter does where the arrow stands."""
        chosen, line = self.query_one(Listing).chosen, self.query_one(EntryLine)
        record = self.record
        self._show_beside()
        if chosen is None or record is None:
            return
        line.placeholder = ""
        if self.opened is not None:
            return
        if chosen.key.startswith("record "):
            line.placeholder = "Enter opens it"
        elif frozen(record, fact_of(chosen)):
            line.placeholder = "it went out so, and stays"
        elif can_amend(held(record, fact_of(chosen))):
            line.placeholder = "Enter amends it here"

    def _show_beside(self) -> None:
        """Say in full, where there is room beside the list, what a row is about."""
        halves, chosen = self.query_one(Halves), self.query_one(Listing).chosen
        said: tuple[Say, ...] = ()
        if halves.beside and chosen is not None and self.record is not None:
            known = self._history or (), self._changes
            said = said_of_row(self.desk.snapshot, self.record, chosen, *known)
        halves.share(0, known=halves.beside)
        self.query_one(Passage).show(said)

    def on_resize(self) -> None:
        """Lay the rows out for the new width."""
        super().on_resize()
        if self.is_laid_out:
            self._show_beside()

    @on(Input.Submitted, "#line")
    def _enter(self) -> None:
        self.hold_back()
        chosen, typed = self.query_one(Listing).chosen, self.query_one(EntryLine).value
        record, named = self.record, self._row_of(typed)
        if self.opened is not None:
            self.amend(self.opened, typed)
        elif named is not None:
            self.begin(named[0], named[2])
        elif chosen is None or record is None:
            return
        elif typed.strip() and not self._brought:
            self.tell(which_row(self.desk.snapshot, record), label="which row?")
        elif chosen.key.startswith(("record ", "file", "git")):
            if typed:
                self.tell("this row takes no new value; Esc empties the line")
            elif chosen.key.startswith("record "):
                self.show_record(chosen.key.partition(" ")[2])
        else:
            self.begin(fact_of(chosen), typed)
            if not typed:
                self.say_what_stands()

    def _row_of(self, typed: str) -> tuple[str, str, str] | None:
        """Give the fact that is named in front of what was typed, and its words."""
        record = self.record
        if record is None or not typed.strip():
            return None
        by_word = not self._brought
        return row_named(self.desk.snapshot, record, typed, by_word=by_word)

    @on(Input.Changed, "#line")
    def _show_which(self) -> None:
        """Show in the margin which row the words are for, as far as they tell it."""
        line = self.query_one(EntryLine)
        if self.opened is not None or line.as_put:
            return
        named, chosen = self._row_of(line.value), self.query_one(Listing).chosen
        word = "amend"
        if named is not None:
            word = named[1]
        elif line.value and not self._brought:
            word = "which?"
        elif line.value and chosen is not None:
            word = word_of(fact_of(chosen))
        self.query_one("#say", Row).relabel(f"{word[:9]} ›")

    def action_choose(self) -> None:
        """Amend or open what the arrow stands at, as Enter does."""
        self._enter()

    def action_back(self) -> None:
        """Drop an edit, or go back."""
        if self.is_announced:
            self.hold_back()
        elif self.opened is not None:
            self.drop_edit()
        elif self.query_one(EntryLine).value:
            self.empty(self.purpose)
        else:
            self.dismiss()
