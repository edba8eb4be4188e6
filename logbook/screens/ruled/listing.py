"""Rows to choose from: a margin word, the kind, the words; one of them chosen.

Only the rows that are to be seen are drawn, so a list may be as long as it likes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from rich.cells import cell_len
from textual.app import RenderResult
from textual.content import Content
from textual.widget import Widget

from logbook.screens.ruled.cutting import broken, cut
from logbook.screens.ruled.look import read_line
from logbook.screens.ruled.rows import LABEL_ROOM, MARGIN

KIND_WIDTH = 13
"""Columns of the longest kind of entry; longer words push their row aside."""


@dataclass(frozen=True, slots=True)
class Line:
    """One row: `key` finds it again, `label` stands in the margin.

    `weight` is how the kind is drawn, where it is to be told at a glance.
    """

    key: str
    label: str
    words: str
    kind: str = ""
    weight: str = "$mark"


def kind_column(lines: Iterable[Line]) -> int:
    """Give the columns the kinds of these rows take, so that the words line up."""
    return max((cell_len(read_line(line.kind)) for line in lines), default=0)


def drawn(
    line: Line, width: int, *, chosen: bool = False, kind: int = KIND_WIDTH
) -> Content:
    """Draw a row of exactly this many columns, the kind in a column of its own."""
    label = cut(Content(read_line(line.label)), LABEL_ROOM).plain
    margin = f"{'▸' if chosen else ' '}{label}"
    said = read_line(line.kind)
    blank = " " * (max(0, kind - cell_len(said)) + 2) if line.kind else ""
    made = cut(
        Content.assemble(
            (margin.rjust(MARGIN - 1)[: MARGIN - 1], "" if chosen else "$quiet"),
            (" │ ", "" if chosen else "$rule"),
            (said, "" if chosen else line.weight),
            blank,
            read_line(line.words),
        ),
        width,
        pad=True,
    )
    return made.stylize("reverse") if chosen else made


def in_full(line: Line, width: int, kind: int = KIND_WIDTH) -> list[tuple[str, str]]:
    """Give a row in full, where so many columns have no room for it."""
    said = read_line(line.words)
    before = MARGIN + 2 + (max(kind, cell_len(line.kind)) + 2 if line.kind else 0)
    if before + cell_len(said) <= width and cell_len(line.label) <= LABEL_ROOM:
        return []
    return [(line.kind or line.label, said)]


def with_more(row: Content, below: int, width: int) -> Content:
    """Say at the end of a row how many are hidden below it."""
    said = f" ▾ {below} more below "
    if width < MARGIN + len(said) + 8:
        said = " ▾ "
    kept = cut(row.rstrip(), max(width - len(said), 1), pad=True)
    return Content.assemble(kept, (said, "$mark"))


class Listing(Widget):
    """Rows from the top, the chosen one always to be seen."""

    DEFAULT_CSS = "Listing { height: 1fr; min-height: 3; }"

    def __init__(self, nothing: str, *, id: str | None = None) -> None:  # noqa: A002
        """Say `nothing` where there is no row."""
        super().__init__(id=id)
        self._lines: Sequence[Line] = ()
        self._nothing, self._chosen, self._kind = nothing, 0, 0

    def show(self, lines: Sequence[Line], chosen: str = "") -> None:
        """Show rows; the one of key `chosen`, or the first, is chosen."""
        self._lines, self._kind = lines, kind_column(lines)
        keys = [line.key for line in lines]
        self._chosen = keys.index(chosen) if chosen in keys else 0
        self.refresh()

    def show_nothing(self, words: str) -> None:
        """Change what is said where there is no row."""
        self._nothing = words
        self.refresh()

    @property
    def chosen(self) -> Line | None:
        """The row chosen; none in an empty list."""
        return self._lines[self._chosen] if self._lines else None

    def in_full(self) -> Sequence[tuple[str, Content | str]]:
        """Give the chosen row, where there is no room for it."""
        chosen = self.chosen
        return in_full(chosen, self.size.width, self._kind) if chosen else ()

    @property
    def at(self) -> int:
        """Which row is chosen, counted from the first, which is 0."""
        return self._chosen

    @property
    def count(self) -> int:
        """How many rows there are."""
        return len(self._lines)

    def move(self, by: int) -> None:
        """Choose a row further down, or up."""
        self._chosen = max(0, min(len(self._lines) - 1, self._chosen + by))
        self.refresh()

    def render(self) -> RenderResult:
        """Draw the rows around the chosen one."""
        width, height = max(self.size.width, 1), max(self.size.height, 1)
        if not self._lines:
            room = width - MARGIN - 3
            said = broken(Content(read_line(self._nothing)), room)
            rows = [drawn(Line("", "", row.plain), width) for row in said][:height]
        else:
            first = max(0, min(self._chosen - height // 2, len(self._lines) - height))
            rows = [
                drawn(self._lines[n], width, chosen=n == self._chosen, kind=self._kind)
                for n in range(first, min(first + height, len(self._lines)))
            ]
            below = len(self._lines) - first - height
            if below > 0 and height > 1:
                rows[-1] = with_more(rows[-1], below, width)
        blank = drawn(Line("", "", ""), width)
        return Content("\n").join([*rows, *[blank] * (height - len(rows))])
