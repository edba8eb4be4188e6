"""A list, and below or beside it all that is known of the row the arrow stands at."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input

from logbook.screens.ruled import verbs
from logbook.screens.ruled.emptying import EmptyingSheet
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.halves import Halves
from logbook.screens.ruled.listing import Line, Listing
from logbook.screens.ruled.passage import Passage, Say
from logbook.screens.ruled.rows import Row

MOVES = (
    verbs.Verb("move(-1)", "up", "up", "Go up.", in_strip=False),
    verbs.Verb("move(1)", "down", "down", "Go down.", in_strip=False),
    verbs.Verb("page(1)", "more", "pagedown", "Show more of what is known."),
    verbs.Verb("page(-1)", "less", "pageup", "Go back up.", in_strip=False),
)


LOW = 24
"""Rows below which the list takes less of them."""


class Facing(EmptyingSheet):
    """The list, the passage, and the line under both.

    What stands in the line is kept; what stood in it when the sheet went away can be
    brought back.
    """

    CSS_PATH = Path(__file__).parent / "facing.tcss"
    NOTHING: ClassVar[str] = ""
    ASKS: ClassVar[str] = ""
    MARGIN_WORD: ClassVar[str] = ""
    KEEPS: ClassVar[bool] = True
    """Whether the line itself is kept, and not what is made of it."""
    begins_at = ""
    """The key of the row the arrow begins at; else it begins at the first."""

    def body(self) -> ComposeResult:
        """Lay out list, passage, the question and the line."""
        yield Halves(self.NOTHING)
        yield Row("", id="question")
        yield Row(self.MARGIN_WORD, EntryLine(self.ASKS, id="line"), id="say")

    @property
    def line(self) -> EntryLine:
        """The line to type on."""
        return self.query_one(EntryLine)

    @property
    def listing(self) -> Listing:
        """The list."""
        return self.query_one(Listing)

    @property
    def chosen(self) -> str:
        """The key of the row the arrow stands at; empty in an empty list."""
        chosen = self.listing.chosen
        return chosen.key if chosen else ""

    def on_mount(self) -> None:
        """Start with the line ready."""
        super().on_mount()
        self.line.focus()
        self.show()
        if self.KEEPS:
            self.recall(self.purpose)

    @on(Input.Changed, "#line")
    def _keep_typed(self) -> None:
        if self.KEEPS:
            self.keep_soon(self.line.value, self.purpose)

    def lines(self) -> Sequence[Line]:
        """Give the rows of the list."""
        raise NotImplementedError

    def known(self, key: str) -> Sequence[Say]:
        """Give what is known of the row with this key."""
        raise NotImplementedError

    def show(self) -> None:
        """Show everything as it is now, the arrow where it was."""
        kept, lines = self.chosen or self.begins_at, self.lines()
        known = self.desk.glance.read
        self.listing.show_nothing(self.NOTHING if known else self.not_read())
        self.listing.show(lines, kept)
        height = self.size.height  # where it is low, what is known needs the rows more
        self.query_one(Halves).share(height * 2 // (5 if height >= LOW else 7))
        self.follow(anew=self.chosen != kept)

    def follow(self, *, anew: bool = True) -> None:
        """Show what is known of the row the arrow stands at."""
        self.query_one(Passage).show(self.known(self.chosen), anew=anew)

    def on_resize(self) -> None:
        """Lay the list out for the new height."""
        if self.is_mounted:
            self.show()

    def action_move(self, by: int) -> None:
        """Move the arrow."""
        self.listing.move(by)
        self.follow()

    def action_back(self) -> None:
        """Empty the line, which can be got back, else go back."""
        if self.KEEPS and self.line.value:
            self.empty(self.purpose)
        else:
            self.dismiss()

    def action_page(self, by: int) -> None:
        """Show more of what is known."""
        self.query_one(Passage).page(by)
