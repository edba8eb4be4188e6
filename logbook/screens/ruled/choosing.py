"""Choosing one of many: type to narrow the list, arrows to move, Enter to choose."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.await_complete import AwaitComplete
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input

from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled import verbs
from logbook.screens.ruled.emptying import EmptyingSheet
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.halves import BROAD, Halves
from logbook.screens.ruled.listing import Line, Listing
from logbook.screens.ruled.passage import Passage, Say
from logbook.screens.ruled.rows import Row

CHOOSE = verbs.Verb("choose", "choose", "enter", "Take the row the arrow stands at.")
MOVES = (
    verbs.Verb("move(-1)", "up", "up", "Go up.", in_strip=False),
    verbs.Verb("move(1)", "down", "down", "Go down.", in_strip=False),
    verbs.Verb("move(-10)", "far up", "pageup", "Go far up.", in_strip=False),
    verbs.Verb("move(10)", "far down", "pagedown", "Go far down.", in_strip=False),
)


class Choosing(EmptyingSheet):
    """A list above a line; dismissed with the key of what was chosen.

    Where `about` says something of the row the arrow is at, it stands below the list or
    beside it. What was typed when it went away, nothing chosen, can be brought back; it
    is not put into the line unasked, where the next letters would come behind it.
    """

    CSS_PATH = Path(__file__).parent / "choosing.tcss"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        CHOOSE, *MOVES, verbs.BACK, *verbs.IN_LISTS,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    ASKS = "type to narrow the list"
    NOTHING = "nothing fits"
    EMPTY = ""
    """What is said where there is nothing to choose from at all, if it is more."""
    MARGIN_WORD = "find ›"
    BROAD: ClassVar[int] = BROAD
    """Columns from which `about` stands beside the list."""
    ONLY_BESIDE: ClassVar[bool] = False
    """Whether there is no room for it elsewhere."""
    KEEPS: ClassVar[bool] = True
    """Whether the line is kept as what narrows a list is."""

    def __init__(self, desk: Desk, heading: str = "") -> None:
        """Choose under this heading."""
        super().__init__(desk)
        self._heading = heading
        self._early = not desk.glance.read

    @property
    def heading(self) -> str:
        """What is chosen here."""
        return self._heading

    def body(self) -> ComposeResult:
        """Lay out the list and the line under it."""
        yield Halves(self.NOTHING, self.BROAD)
        yield Row(self.MARGIN_WORD, EntryLine(self.ASKS, id="line"), id="say")

    def on_mount(self) -> None:
        """Start with the whole list and the line ready."""
        super().on_mount()
        self.query_one(EntryLine).focus()
        self.prepare()
        self.narrow("")
        if self.KEEPS:
            self.recall(self.purpose)

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the rows that fit what was typed, the best first."""
        raise NotImplementedError

    def about(self, line: Line) -> Sequence[Say]:
        """Give what is worth knowing of a row before it is chosen."""
        del line
        return ()

    def told(self, message: Message) -> None:
        """List anew what was listed before the records were read."""
        super().told(message)
        if isinstance(message, news.Looked):
            self.show_band()
            if self._early:
                self._early = False
                self.prepare()
                self.narrow(self.query_one(EntryLine).value)

    def prepare(self) -> None:
        """Work out what the rows are taken from; again, once the records are read."""

    def narrow(self, typed: str) -> None:
        """Show the rows that fit what was typed."""
        listing = self.query_one(Listing)
        nothing = self.NOTHING if typed else self.EMPTY or self.NOTHING
        listing.show_nothing(self.not_read() if self._early else nothing)
        listing.show(self.lines(typed))
        self.follow()

    def follow(self) -> None:
        """Show what is known of the row the arrow stands at, where anything is."""
        halves, chosen = self.query_one(Halves), self.query_one(Listing).chosen
        says = halves.beside or not self.ONLY_BESIDE
        said = self.about(chosen) if says and chosen else ()
        speaks = halves.beside and type(self).about is not Choosing.about
        halves.share(self.size.height // 2, known=bool(said) or speaks)
        self.query_one(Passage).show(said)

    def on_resize(self) -> None:
        """Lay the list out for the new height."""
        if self.is_mounted:
            self.follow()

    @on(Input.Changed, "#line")
    def _typed(self, event: Input.Changed) -> None:
        if not self.query_one(EntryLine).as_put:
            self.tell("")
        if self.KEEPS:
            self.keep_soon(event.value, self.purpose)
        self.narrow(event.value)

    @on(Input.Submitted, "#line")
    def _enter(self) -> None:
        chosen = self.query_one(Listing).chosen
        if chosen is not None:
            self.choose(chosen)
        else:
            self.none_fits(self.query_one(EntryLine).value)

    def none_fits(self, typed: str) -> None:
        """Say that no row fits what was typed."""
        del typed
        self.tell(self.nothing())

    def nothing(self) -> str:
        """Say why there is no row to take, and what to do."""
        if self._early:
            return self.not_read()
        return f"{self.NOTHING}; accepted: fewer letters"

    def choose(self, chosen: Line) -> None:
        """Take a row: the screen goes and gives its key."""
        self.dismiss(chosen.key)

    def dismiss(self, result: Any = None) -> AwaitComplete:
        """Go away; what was typed is kept, unless it led to a choice."""
        if self.KEEPS:
            typed = self.query_one(EntryLine).value
            self.keep_now(typed if result is None else "", self.purpose)
        return super().dismiss(result)

    def action_choose(self) -> None:
        """Take the row, as Enter does."""
        self._enter()

    def action_move(self, by: int) -> None:
        """Move the arrow."""
        self.query_one(Listing).move(by)
        self.follow()

    def action_page(self, by: int) -> None:
        """Show more of what is known of the row; for lists whose rows say much."""
        self.query_one(Passage).page(by)
