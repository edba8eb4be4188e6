"""What a screen had no room for, in full: one key reads it, wherever it was cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import ClassVar, Protocol, runtime_checkable

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.screen import Screen

from logbook.screens.desk.desk import Desk
from logbook.screens.ruled import verbs
from logbook.screens.ruled.passage import Passage, Say
from logbook.screens.ruled.sheet import Sheet


@runtime_checkable
class Cuts(Protocol):
    """A widget that may have no room for all it has to say."""

    def in_full(self) -> Sequence[tuple[str, Content | str]]:
        """Give in full what of it is cut, each with its word in the margin."""
        ...


def cut_on(screen: Screen[object]) -> Iterator[Say]:
    """Give in full what is cut of what a screen shows, from its top."""
    for widget in screen.query("*"):
        if isinstance(widget, Cuts) and widget.is_on_screen and widget.size.height:
            yield from (Say(*one) for one in widget.in_full())


class Whole(Sheet):
    """What was cut on the screen below, to be read and scrolled."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        verbs.Verb("page(1)", "more", "pagedown", "Read on."),
        verbs.Verb("page(-1)", "less", "pageup", "Go back up.", in_strip=False),
        verbs.Verb("move(1)", "down", "down", "Read on by a row.", in_strip=False),
        verbs.Verb("move(-1)", "up", "up", "Go back by a row.", in_strip=False),
        verbs.BACK, verbs.LIGHT, verbs.LEAVE, verbs.STOP,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS)

    def __init__(self, desk: Desk, said: Sequence[Say]) -> None:
        """Show this."""
        super().__init__(desk)
        self._said = said

    @property
    def heading(self) -> str:
        """What is read here."""
        return "in full"

    def body(self) -> ComposeResult:
        """Lay out the passage alone."""
        yield Passage(id="whole")

    def on_mount(self) -> None:
        """Show it from its beginning."""
        super().on_mount()
        self.query_one(Passage).show(self._said)

    def action_move(self, by: int) -> None:
        """Read on by a row, or go back."""
        self.query_one(Passage).move(by)

    def action_page(self, by: int) -> None:
        """Read on, or go back."""
        self.query_one(Passage).page(by)
