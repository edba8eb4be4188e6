"""The newest entries, the latest at the foot, where the eye is while typing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from textual.geometry import Region
from textual.strip import Strip
from textual.style import Style
from textual.visual import Visual
from textual.widget import Widget

from logbook.errors import LogbookError, NoProject
from logbook.screens.ruled.listing import Line, drawn, in_full
from logbook.screens.ruled.margin_words import margin_word
from logbook.screens.ruled.moments import day
from logbook.screens.ruled.settled import settled

if TYPE_CHECKING:  # the first paint is there before these are loaded
    from logbook.records.kinds.record import Record
    from logbook.records.kinds.workshop import Build


READING = "reading the records …"
BEGIN = (
    Line("", "first", "type below what happened, in plain words"),
    Line("", "like", "base opening 178.6 should be 180"),
    Line("", "or", "diffuser cracked at the corner screw"),
    Line("", "or", "yesterday 16:00 sawed the crossbar at 178.45"),
    Line("", "then", "it shows what it understood; Enter takes it"),
    Line("", "F1", "shows every key"),
)
"""What is said to somebody who begins."""
NO_LOGBOOK = (
    Line("", "first", "leave (Ctrl-Q); in your design's folder type"),
    Line("", "", "logbook start"),
    Line("", "or", "logbook demo, which makes an invented one"),
)
"""What is said where there is no logbook."""


def no_logbook(refusal: LogbookError | None) -> tuple[Line, ...]:
    """Give what is said where there is no logbook; the designs below by name."""
    below = refusal.below if isinstance(refusal, NoProject) else ()
    if not below:
        return NO_LOGBOOK
    there = (Line("", "", one) for one in below)
    return Line("", "first", "leave (Ctrl-Q); go to one of the designs below"), *there


READ = 8
"""So many readings of a run are told in its row; more would be cut anyway."""
KEPT = 500
"""Drawn rows kept, so that only rows that are new are drawn."""

Shown = tuple[Line, bool]
"""A row, and whether the arrow stands at it."""


class Newest(Widget):
    """Records in a list; only the rows that are to be seen, and differ, are drawn."""

    DEFAULT_CSS = "Newest { height: 1fr; min-height: 3; }"
    virtual_size = settled()

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        """Start empty."""
        super().__init__(id=id)
        self._records: Sequence[Record] = ()
        self._called: Callable[[Record], str] = lambda _: ""
        self._first: Sequence[Line] = ()
        self._pending: tuple[str, ...] = ()
        self._build: Build | None = None
        self._before = 0
        self._chosen = ""
        self._shown: list[Shown] = []
        self._drawn: dict[tuple[Shown, int, Style], Strip] = {}
        self.nothing: Sequence[Line] = BEGIN

    def glimpse(self, lines: Sequence[Line]) -> None:
        """Show rows while the records are read, oldest first; `show` ends that."""
        self._first = lines
        self._lay()

    def show(
        self,
        records: Sequence[Record],
        pending: tuple[str, ...] = (),
        build: Build | None = None,
        before: int = 0,
        called: Callable[[Record], str] = lambda _: "",
    ) -> None:
        """Show records, oldest first, and below them lines still being written.

        Those of another build than `build` say which; after the first `before`,
        which are none of its own, a row with its name begins those that are. What a
        record is `called` stands in place of its kind.
        """
        self._called = called
        self._before = before if build else 0
        self._records, self._pending, self._build = records, pending, build
        self._first = ()
        self._lay()

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
        self._chosen = self._records[max(to, 0)].id if max(to, 0) < count else ""
        self._lay()

    def leave(self) -> None:
        """Let go of the record the arrow stands at."""
        if self._chosen:
            self._chosen = ""
            self._lay()

    def _at(self) -> int | None:
        if not self._chosen:
            return None
        for at in range(len(self._records) - 1, -1, -1):
            if self._records[at].id == self._chosen:
                return at
        return None

    def in_full(self) -> Sequence[tuple[str, str]]:
        """Give the row the arrow stands at, or each that is to be seen, where cut."""
        shown = [row for row in self._shown if row[1]] or self._shown
        width = self.size.width
        return [said for line, _ in shown for said in in_full(line, width)]

    # -- drawing -----------------------------------------------------------------

    def on_resize(self) -> None:
        """Lay the rows anew."""
        self._lay()

    def _lay(self) -> None:
        """Find the rows to be seen; those that differ are drawn."""
        before, self._shown = self._shown, self._rows(max(self.size.height, 1))
        if len(before) != len(self._shown):
            self.refresh()
            return
        changed = [
            Region(0, y, self.size.width, 1)
            for y, row in enumerate(self._shown)
            if row != before[y]
        ]
        if changed:
            self.refresh(*changed)

    def _rows(self, height: int) -> list[Shown]:
        """Give the newest rows that fit, or those around the arrow, as many as fit."""
        pending = [(Line("", "writing", words), False) for words in self._pending]
        room = max(height - len(pending), 1)
        at, count = self._at(), len(self._records)
        last = count if at is None else min(count, max(at + 1 + room // 3, room))
        first = max(0, last - room)
        rows = [(self._line(self._records[n]), n == at) for n in range(first, last)]
        if self._build and first < self._before <= last:
            rows.insert(self._before - first, (_divider(self._build), False))
            if len(rows) > room:
                rows.pop(-1 if at == first else 0)
        if not rows:
            rows = [(line, False) for line in self._first]
        if not rows and not pending:
            rows = [(line, False) for line in self.nothing]
        rows = (rows + pending)[-height:]
        return [(Line("", "", ""), False)] * (height - len(rows)) + rows

    def _line(self, record: Record) -> Line:
        line = line_of(record)
        line = replace(line, kind=self._called(record) or line.kind)
        other = getattr(record, "build", None)
        if self._build is not None and other and other.id != self._build.id:
            return replace(line, words=f"{other.name} · {line.words}")
        return line

    def render_line(self, y: int) -> Strip:
        """Draw a row, unless it is kept from before."""
        width, style = max(self.size.width, 1), self.visual_style
        row = self._shown[y] if y < len(self._shown) else (Line("", "", ""), False)
        key = (row, width, style)
        if key not in self._drawn:
            if len(self._drawn) >= KEPT:
                self._drawn.clear()
            content = drawn(row[0], width, chosen=row[1])
            [self._drawn[key]] = Visual.to_strips(self, content, width, 1, style)
        return self._drawn[key]


def _divider(build: Build) -> Line:
    """Give the row from which on the entries are of the build in hand."""
    return Line("", day(build.when), f"── {build.title} begun ──")


def line_of(record: Record) -> Line:
    """Give the row of a record: its day, its kind, its title."""
    from logbook.records.kinds.table import kind_of

    kind = margin_word(kind_of(record).shown)
    kind = "taken apart" if getattr(record, "undone", False) else kind
    return Line(record.id, day(record.when), _words(record), kind)


def _words(record: Record) -> str:
    """Give a record's title; behind that of a run, what it read, where it does not say.

    A run begun in its list is called by its piece, before anything is read.
    """
    readings = getattr(record, "readings", ())[:READ]
    figures = [str(one.value).split(maxsplit=1)[0] for one in readings]
    if not readings or any(figure in record.title for figure in figures):
        return record.title
    sizes = list(dict.fromkeys(one.what.name for one in readings))
    told = (
        f"{size} {', '.join(str(r.value) for r in readings if r.what.name == size)}"
        for size in sizes
    )
    return f"{record.title}: {' · '.join(told)}"
