"""A passage to read: margin words and what there is to say, wrapped and scrolled.

Only what is to be seen is drawn. Where more follows, the margin says so.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from textual.app import RenderResult
from textual.content import Content
from textual.widget import Widget

from logbook.screens.ruled.cutting import broken, cut
from logbook.screens.ruled.listing import with_more
from logbook.screens.ruled.look import read_line
from logbook.screens.ruled.rows import MARGIN

BESIDE = MARGIN + 2
"""Columns of margin, rule and the space behind it."""


@dataclass(frozen=True, slots=True)
class Say:
    """One thing to say: its word in the margin, then the words."""

    label: str
    words: Content | str


def bar(share: float, width: int) -> str:
    """Draw a share of 0 to 1 as a bar in at most `width` columns."""
    eighths = round(max(0.0, min(1.0, share)) * width * 8)
    full, rest = divmod(eighths, 8)
    return "█" * full + (" ▏▎▍▌▋▊▉"[rest] if rest else "")


class Passage(Widget):
    """Rows of margin and words; scrolled by whole rows.

    Its `margin` is as wide as that of the rows it stands under.
    """

    DEFAULT_CSS = "Passage { height: 1fr; min-height: 2; }"

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        """Start empty."""
        super().__init__(id=id)
        self._said: tuple[Say, ...] = ()
        self._first = 0
        self.margin = MARGIN

    def show(self, said: Sequence[Say], *, anew: bool = True) -> None:
        """Say this; from its beginning, or where the eye was."""
        self._said = tuple(said)
        if anew:
            self._first = 0
        self.refresh()

    def page(self, by: int) -> None:
        """Scroll by a page."""
        self.move(by * max(self.size.height - 1, 1))

    def move(self, by: int) -> None:
        """Scroll by so many rows."""
        last = max(0, len(self._laid(self.size.width)) - max(self.size.height, 1))
        self._first = max(0, min(last, self._first + by))
        self.refresh()

    def in_full(self) -> Sequence[tuple[str, Content | str]]:
        """Give all that is said here, where there is no room for it."""
        if len(self._laid(self.size.width)) <= self.size.height:
            return ()
        return [(say.label, say.words) for say in self._said]

    @property
    def width(self) -> int:
        """Columns there are for words."""
        return max(self.size.width - self.margin - 3, 10)

    def _laid(self, width: int) -> list[Content]:
        room, margin = max(width - self.margin - 3, 7), self.margin
        return [row for say in self._said for row in _rows(say, room, margin)]

    def render(self) -> RenderResult:
        """Draw the rows that are to be seen."""
        width, height = max(self.size.width, 1), max(self.size.height, 1)
        laid = self._laid(width)
        first = max(0, min(self._first, len(laid) - height))
        shown = laid[first : first + height]
        below = len(laid) - first - height
        if below > 0:
            shown[-1] = with_more(shown[-1], below, width)
        blank = _row("", Content(""), self.margin)
        shown += [blank] * (height - len(shown))
        return Content("\n").join(cut(row, width, pad=True) for row in shown)


def _rows(say: Say, room: int, margin: int) -> Iterator[Content]:
    words = Content(read_line(say.words)) if isinstance(say.words, str) else say.words
    for at, line in enumerate(broken(words, room) or [Content("")]):
        yield _row("" if at else say.label, line, margin)


def _row(label: str, words: Content, margin: int) -> Content:
    word = cut(Content(read_line(label)), margin - 1).plain.rjust(margin - 1)
    return Content.assemble((word, "$quiet"), (" │ ", "$rule"), words)
