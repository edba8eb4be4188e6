"""The newest entries, the latest at the foot, where the eye is while typing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from textual.app import RenderResult
from textual.content import Content
from textual.widget import Widget

from logbook.screens.listing import Line, drawn
from logbook.screens.moments import day

if TYPE_CHECKING:  # the first paint is there before these are loaded
    from logbook.records.model import Build, Record


class Newest(Widget):
    """Records in a list; only the rows that are to be seen are drawn."""

    DEFAULT_CSS = "Newest { height: 1fr; min-height: 3; }"

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        """Start empty."""
        super().__init__(id=id)
        self._records: Sequence[Record] = ()
        self._first: Sequence[Line] = ()
        self._pending: tuple[str, ...] = ()
        self._build: Build | None = None
        self._chosen = ""
        self.nothing = "nothing yet: type what happened, in plain words"

    def glimpse(self, lines: Sequence[Line]) -> None:
        """Show rows while the records are read, oldest first; `show` ends that."""
        self._first = lines
        self.refresh()

    def show(
        self,
        records: Sequence[Record],
        pending: tuple[str, ...] = (),
        build: Build | None = None,
    ) -> None:
        """Show records, oldest first, and below them lines still being written.

        Those of another build than `build` say which.
        """
        self._records, self._pending, self._build = records, pending, build
        self._first = ()
        self.refresh()

    @property
    def chosen(self) -> Record | None:
        """The record the arrow stands at; none until an arrow key was used."""
        at = self._at()
        return None if at is None else self._records[at]

    def move(self, by: int) -> None:
        """Move the arrow; from below the last one it comes in at the foot."""
        count = len(self._records)
        at = self._at()
        to = (count if at is None else at) + by
        self._chosen = self._records[max(to, 0)].id if to < count else ""
        self.refresh()

    def leave(self) -> None:
        """Let go of the record the arrow stands at."""
        self._chosen = ""
        self.refresh()

    def _at(self) -> int | None:
        if not self._chosen:
            return None
        for at in range(len(self._records) - 1, -1, -1):
            if self._records[at].id == self._chosen:
                return at
        return None

    def render(self) -> RenderResult:
        """Draw the newest rows that fit, or those around the arrow."""
        height, width = max(self.size.height, 1), max(self.size.width, 1)
        pending = [drawn(Line("", "writing", words), width) for words in self._pending]
        room = max(height - len(pending), 1)
        at, count = self._at(), len(self._records)
        last = count if at is None else min(count, max(at + 1 + room // 3, room))
        first = max(0, last - room)
        rows = [
            self._row(self._records[n], width, chosen=n == at)
            for n in range(first, last)
        ]
        if not rows:
            rows = [drawn(line, width) for line in self._first]
        if not rows and not pending:
            rows = [drawn(Line("", "", self.nothing), width)]
        rows = (rows + pending)[-height:]
        blank = [drawn(Line("", "", ""), width)] * (height - len(rows))
        return Content("\n").join([*blank, *rows])

    def _row(self, record: Record, width: int, *, chosen: bool) -> Content:
        line = line_of(record)
        other = getattr(record, "build", None)
        if self._build is not None and other and other.id != self._build.id:
            line = replace(line, words=f"{other.name} · {line.words}")
        return drawn(line, width, chosen=chosen)


def line_of(record: Record) -> Line:
    """Give the row of a record: its day, its kind, its title."""
    from logbook.records.kinds import kind_of

    return Line(record.id, day(record.when), record.title, kind_of(record).shown)
