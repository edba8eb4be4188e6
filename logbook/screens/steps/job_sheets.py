"""The job sheets that can be typed in: those printed here, and today's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import ClassVar

from textual import on, work
from textual.binding import BindingType
from textual.message import Message

from logbook.counting import so_many
from logbook.errors import LogbookError
from logbook.publish.sheet.kept_sheets import (
    keep_sheet,
    kept_marks,
    page_place,
    sheet_boxes,
)
from logbook.publish.sheet.operations import Wanted
from logbook.publish.sheet.sheet import job_sheet, write_html
from logbook.publish.sheet.sheet_typing import SheetTyping
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled import verbs
from logbook.screens.ruled.choosing import CHOOSE, MOVES, Choosing
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say
from logbook.screens.steps.box_rows import ON_RECORD, step_title
from logbook.store.disk.flushed import reason

Typed = tuple[SheetTyping, str]
"""A sheet, and the id of its build."""
WRITE = verbs.Verb(
    "write", "write it to print", "ctrl+s", "Write today's sheet as a page to print."
)


class Sheets(Choosing):
    """The sheets that can be typed in: those printed here, and today's."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        replace(CHOOSE, label="type it in"), WRITE, *MOVES, verbs.BACK, *verbs.IN_LISTS,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    ASKS = "the six signs in the title of the sheet"
    NOTHING = (
        "no sheet of that mark was printed in this clone: type it in where it was, or "
        "put its page, job-sheet-….html, into as-built/job-sheets/ here"
    )
    MARGIN_WORD = "sheet ›"

    class Found(Message):
        """The sheets were looked up beside the keys."""

        def __init__(self, found: Sequence[Typed], now: str) -> None:
            """Carry them; `now` is the mark of what would be printed now."""
            super().__init__()
            self.found, self.now = found, now

    class PageWritten(Message):
        """The page was written, or the sentence says why not."""

        def __init__(self, said: str, label: str) -> None:
            """Carry what is to be said."""
            super().__init__()
            self.said, self.label = said, label

    def __init__(self, desk: Desk, heading: str, mark: str = "") -> None:
        """Choose one; that of `mark` is gone to at once, where it is still there."""
        super().__init__(desk, heading)
        self._mark = mark

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
        kept = kept_marks(root)
        for mark in kept:
            try:
                boxes, of = sheet_boxes(root, snapshot, mark)
            except LogbookError:
                continue  # a file that is no sheet is none to type in
            if mark != now.mark:
                found.append((SheetTyping(mark, boxes), of))
        for one, _ in found:
            one.recall(root, snapshot)
        found.sort(key=lambda one: _in_hand(one[0], kept, now.mark))
        self.post_message(self.Found(found, now.mark))

    @on(Found)
    def _show(self, message: Found) -> None:
        self._found, self._now = message.found, message.now
        wanted = [one for one in self._found if one[0].mark == self._mark]
        if wanted:
            self.dismiss(wanted[0])
            return
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
        saved = f", {len(one.saved)} {ON_RECORD}" if one.saved else ""
        typed = f", {one.filled} typed and not saved" if one.texts else ""
        return f"{so_many(one.boxes, 'box', 'boxes')}{saved}{typed}"

    def choose(self, chosen: Line) -> None:
        """Give the sheet and its build."""
        self.dismiss(next(one for one in self._found if one[0].mark == chosen.key))

    def about(self, line: Line) -> Sequence[Say]:
        """Say how it is printed, and which boxes it has, step by step."""
        [one] = [one for one, _ in self._found if one.mark == line.key]
        said = [Say("print", self._how_printed(one))]
        step = None
        for box in one.boxes:
            if box.step != step:
                step = box.step
                said.append(Say("step", step_title(self.desk.snapshot, box)))
            words = " ".join(filter(None, (box.owner, box.label)))
            said.append(Say(str(box.number), words))
        return said

    def _how_printed(self, one: SheetTyping) -> str:
        key = self.mapped_keys()(WRITE)
        if one.mark != self._now:
            return f"it was; {key} writes the one as printed now"
        return f"{key} writes sheet {self._now} as a page for the printer"

    @work(thread=True, exclusive=True, group="sheets")
    def action_write(self) -> None:
        """Write what would be printed now as a page, and keep its boxes."""
        project, build = self.desk.project, self.desk.build or self.desk.glance.build
        wanted = Wanted(build=build)
        sheet = job_sheet(self.desk.snapshot, wanted, self.desk.now())
        try:
            place = page_place(project.root, sheet.mark)
            keep_sheet(project.root, sheet)
            place.write_text(write_html(sheet, "A4", project.own_templates), "utf-8")
        except LogbookError as refusal:
            said, label = str(refusal), "not written"
        except OSError as error:
            said, label = f"the page: {reason(error)}", "not written"
        else:
            said, label = f"{place}: print it from a browser", "job sheet"
        self.post_message(self.PageWritten(said, label))

    @on(PageWritten)
    def _page_written(self, message: PageWritten) -> None:
        self.tell(message.said, label=message.label)


def _in_hand(one: SheetTyping, kept: Sequence[str], now: str) -> int:
    """Give the place of a sheet in the list: what is on paper is typed in first.

    That is one begun and not finished, then the one printed last; then what would be
    printed now, which is on no paper yet.
    """
    unsaved = [box for box in one.boxes if box.number not in one.saved]
    if one.texts or (one.saved and unsaved):
        return 0
    if one.mark in kept[:1] and unsaved:
        return 1
    return 2 if one.mark == now else 3
