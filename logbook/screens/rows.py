"""The ruled sheet: a margin with a shop word, a rule, and what there is to say.

Every screen is made of these rows and of nothing else, so that the eye finds
the same thing at the same place.
"""

from __future__ import annotations

from collections.abc import Iterable

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from logbook.screens.look import prose

MARGIN = 12
"""Columns of the margin, the space before the rule included."""


def put(widget: Static, words: Content) -> None:
    """Show words, unless they stand there: to lay a screen out anew takes long."""
    there = widget.content
    if not isinstance(there, Content) or not there.is_same(words):
        widget.update(words)


class Row(Horizontal):
    """A row of the sheet; `say` changes what stands in it."""

    def __init__(self, label: str, body: Widget | None = None, *, id: str = "") -> None:  # noqa: A002
        """Take the word in the margin, and a widget if the row holds no words."""
        super().__init__(id=id or None, classes="row")
        self._label = Static(prose(label), classes="margin", markup=False)
        self._body = body or Static("", classes="said", markup=False)

    def compose(self) -> ComposeResult:
        """Put the margin before the rule, the rest behind it."""
        yield self._label
        yield self._body

    def say(self, words: Content | str, label: str | None = None) -> None:
        """Say something here; an empty word leaves the row blank."""
        assert isinstance(self._body, Static)
        put(self._body, prose(words) if isinstance(words, str) else words)
        if label is not None:
            put(self._label, prose(label))

    def relabel(self, label: str) -> None:
        """Change the word in the margin."""
        put(self._label, prose(label))

    @property
    def said(self) -> str:
        """Give the words that stand here now."""
        return str(self._body.content) if isinstance(self._body, Static) else ""


class KeyStrip(Static):
    """The keys that work here, each with its word; the two are never parted."""

    _keys: tuple[tuple[str, str], ...] = ()

    def tell(self, keys: Iterable[tuple[str, str]]) -> None:
        """Show keys with their words."""
        self._keys = tuple(keys)
        self._fill()

    def on_resize(self) -> None:
        """Break the lines anew."""
        self._fill()

    def _fill(self) -> None:
        width, used = self.content_size.width or 80, 0
        said = Content("")
        for key, word in self._keys:
            here = len(key) + len(word) + 3
            between = "\n" if used and used + here > width + 2 else "  " if used else ""
            used = here if between == "\n" else used + here
            said = Content.assemble(said, between, (key, "$mark bold"), f" {word}")
        self.update(said)
