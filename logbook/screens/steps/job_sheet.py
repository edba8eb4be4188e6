"""A job sheet typed in: box after box in printed order, judged as a run judges.

What is typed is kept on disk at once and becomes entries when the sheet is saved;
the shell (`logbook sheet --enter`) goes on with the same draft.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input

from logbook.counting import so_many
from logbook.errors import BadInput
from logbook.publish.sheet.box_reading import judged_so
from logbook.publish.sheet.boxes import Box, Sort
from logbook.quantity import Quantity, parse_quantity
from logbook.screens.desk import news
from logbook.screens.desk.left_off import Midst
from logbook.screens.ruled import verbs
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.listing import Listing
from logbook.screens.ruled.rows import Row
from logbook.screens.run.measure_verbs import DEVIATION
from logbook.screens.run.value_shown import ValueShown
from logbook.screens.steps.box_rows import (
    ON_RECORD,
    asked_in,
    operation_of,
    rows_of_sheet,
)
from logbook.screens.steps.boxes_typed import AT_BOX, BoxesTyped

TAKE = verbs.Verb("take", "take, next", "enter", "Take the box, go to the next.")
BACK_ONE = verbs.Verb("walk(-1)", "back", "up", "Go back to the box before.")
ON_ONE = verbs.Verb("walk(1)", "on", "down", "Leave this box as it is.")
SAVE = verbs.Verb("save", "save it", "ctrl+s", "Save what was typed as entries.")
BACK = verbs.Verb("back", "back", "escape", "Go back; what was typed is kept.")
LINE_BACK = replace(
    verbs.UNDO,
    purpose="Bring the emptied line back.",
    label="line back",
    in_strip=False,
)


class JobSheetTyped(BoxesTyped):
    """The boxes of one sheet."""

    CSS_PATH = Path(__file__).parent / "job_sheet.tcss"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        TAKE, BACK_ONE, ON_ONE, DEVIATION, SAVE, LINE_BACK, BACK, *verbs.EVERYWHERE,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    @property
    def heading(self) -> str:
        """The sheet and how far it is."""
        return f"job sheet {self._typing.mark}"

    WAY = "job_sheet"

    @property
    def about_here(self) -> tuple[str, ...]:
        """The mark of the sheet; the box is known by what is kept of it."""
        return (self._typing.mark,)

    @property
    def purpose(self) -> str:
        """What the sheet is kept as."""
        return self._typing.purpose

    @property
    def in_the_middle(self) -> Midst:
        """The sheet, whether a box is begun or not."""
        return self._midst(f"{self.heading}, box {self._at + 1}", self.line.value)

    def body(self) -> ComposeResult:
        """Lay out the operation, the value, the boxes, the question and the line."""
        yield Row("operation", id="operation")
        yield ValueShown()
        yield Listing("this sheet has no boxes", id="boxes")
        yield Row("", id="question")
        yield Row("box ›", EntryLine("", id="line"), id="say")

    def on_mount(self) -> None:
        """Start behind the last box that was typed before."""
        super().on_mount()
        self._typing.recall(self.desk.project.root, self.desk.snapshot)
        self.follow_advice()
        self._at = max({*self._typing.texts, *self._typing.saved}, default=0)
        self._offer_line()
        if self._typing.texts:
            boxes = so_many(self._typing.filled, "box", "boxes")
            self.tell(f"typed before and kept: {boxes}", label="kept")
        elif self._typing.saved:
            boxes = so_many(self._typing.saved, "box", "boxes")
            self.tell(f"{boxes} of this sheet, typed in before", label=ON_RECORD)
        self.line.focus()
        self.show()

    def _offer_line(self) -> None:
        """Put back what was being typed, and stand at the box it was typed for."""
        purpose = f"line of {self._typing.purpose}{AT_BOX}"
        self.go_to(self.offer_kept(purpose).removeprefix(purpose).strip())

    def told(self, message: Message) -> None:
        """Follow the records; a sheet that is saved goes."""
        match message:
            case news.Looked() | news.Advised():
                self.follow_advice()
                self.show()
            case news.AdvisedSoFar():
                self.take_so_far(message)
                self.show()
            case news.Written() if message.job is self._job:
                self._saved(message.saved.records)
            case news.NotWritten() if message.job is self._job:
                self._job = None
                super().told(message)
            case _:
                super().told(message)

    # -- what is shown -----------------------------------------------------------

    def show(self) -> None:
        """Show the boxes, and the one the arrow stands at."""
        snapshot, box = self.desk.snapshot, self.box
        rows = rows_of_sheet(self._typing, snapshot, self._not_taken)
        self.query_one(Listing).show([*rows], str(self._at))
        self.query_one("#operation", Row).say(operation_of(snapshot, box))
        asked = asked_in(self._typing, box) if box else "Ctrl-S saves the sheet"
        self.line.placeholder = asked
        self._show_value()

    def _show_value(self) -> None:
        shown, box = self.query_one(ValueShown), self.box
        shown.display = box is not None and box.sort is Sort.READING
        if box is None or not shown.display:
            return
        drawn = self._typing.drawn(box, self.desk.snapshot)
        value = self._live(box) or self._typing.value(box)
        known = value if isinstance(value, Quantity) else None
        verdict = judged_so(drawn, known) if known else ""
        said = verdict or "not measured"
        at = f"at {box.place}" if box.place else ""
        shown.show(box.label.partition(" at ")[0], drawn, known, said, (box.owner, at))

    def _live(self, box: Box) -> Quantity | None:
        try:
            return parse_quantity(self.line.value, box.unit)
        except BadInput:
            return None

    # -- typing ------------------------------------------------------------------

    @on(Input.Changed, "#line")
    def _typed(self) -> None:
        if not self.line.as_put:
            self.tell("")
        self.keep_soon(self.line.value, self._purpose)
        self._show_value()

    def action_take(self) -> None:
        """Take the box, as Enter does."""
        self._enter()

    def action_undo(self) -> None:
        """Bring the emptied line back; entries are taken back where they are seen."""
        key = self.mapped_keys()(verbs.UNDO)
        if not self._is_asked() and not self.brings_back():
            self.tell(f"no line was emptied; {key} on the bench takes entries back")

    def action_back(self) -> None:
        """Drop the question, or go back; what was typed is kept."""
        if self.question is not None:
            self.asked_enough()
        elif self.line.value:
            self.empty(self._purpose, str(self._at + 1))
        else:
            self.dismiss("")
