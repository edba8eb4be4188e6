"""The job sheets that can be typed in: those printed here, and today's."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on, work
from textual.message import Message

from logbook.errors import LogbookError
from logbook.publish.kept_sheets import kept_marks, sheet_boxes
from logbook.publish.operations import Wanted
from logbook.publish.sheet import job_sheet
from logbook.publish.sheet_typing import SheetTyping
from logbook.screens.choosing import Choosing
from logbook.screens.entry_line import EntryLine
from logbook.screens.listing import Line
from logbook.screens.passage import Say

Typed = tuple[SheetTyping, str]
"""A sheet, and the id of its build."""


class Sheets(Choosing):
    """The sheets that can be typed in: those printed here, and today's."""

    ASKS = "the six signs in the title of the sheet"
    NOTHING = "no sheet of that mark was printed here: `logbook sheet` prints one"
    MARGIN_WORD = "sheet ›"

    class Found(Message):
        """The sheets were looked up beside the keys."""

        def __init__(self, found: Sequence[Typed], now: str) -> None:
            """Carry them; `now` is the mark of what would be printed now."""
            super().__init__()
            self.found, self.now = found, now

    def on_mount(self) -> None:
        """Look them up in a thread."""
        self._found: Sequence[Typed] = ()
        self._now = ""
        super().on_mount()
        self._look()

    @work(thread=True, exclusive=True, group="sheets")
    def _look(self) -> None:
        root, snapshot = self.desk.project.root, self.desk.snapshot
        build = self.desk.build or self.desk.glance.build
        now = job_sheet(snapshot, Wanted(build=build), self.desk.now())
        found = [(SheetTyping(now.mark, now.boxes), now.build_id)] if now.boxes else []
        for mark in kept_marks(root):
            try:
                boxes, of = sheet_boxes(root, snapshot, mark)
            except LogbookError:
                continue  # a file that is no sheet is none to type in
            if mark != now.mark:
                found.append((SheetTyping(mark, boxes), of))
        for one, _ in found:
            one.recall(root)
        self.post_message(self.Found(found, now.mark))

    @on(Found)
    def _show(self, message: Found) -> None:
        self._found, self._now = message.found, message.now
        self.narrow(self.query_one(EntryLine).value)

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the sheets whose mark begins so, today's first."""
        return [
            Line(one.mark, one.mark, self._words(one), self._kind(one))
            for one, _ in self._found
            if one.mark.startswith(typed.strip().casefold())
        ]

    def _kind(self, one: SheetTyping) -> str:
        return "as printed now" if one.mark == self._now else "printed before"

    def _words(self, one: SheetTyping) -> str:
        typed = f", {len(one.texts)} typed and not saved" if one.texts else ""
        return f"{len(one.boxes)} boxes{typed}"

    def choose(self, chosen: Line) -> None:
        """Give the sheet and its build."""
        self.dismiss(next(one for one in self._found if one[0].mark == chosen.key))

    def about(self, line: Line) -> Sequence[Say]:
        """Say which boxes a sheet has."""
        [one] = [one for one, _ in self._found if one.mark == line.key]
        return [
            Say(str(box.number), " ".join(filter(None, (box.owner, box.label))))
            for box in one.boxes
        ]
