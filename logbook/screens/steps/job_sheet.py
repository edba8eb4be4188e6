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

from logbook.advice.gaps.held_to_gap import suited_word
from logbook.counting import so_many
from logbook.errors import BadInput, LogbookError
from logbook.publish.sheet.boxes import Box, Sort
from logbook.publish.sheet.sheet_typing import SheetTyping
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.words import Blame
from logbook.records.sizes.slips import Slip
from logbook.records.sizes.verdict_word import judged
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled import verbs
from logbook.screens.ruled.asking import (
    AS_MEANT,
    AS_TYPED,
    Answer,
    blame_of,
    which_of_slip,
    whose_fault_of,
)
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.listing import Listing
from logbook.screens.ruled.rows import Row
from logbook.screens.run.measure_verbs import DEVIATION
from logbook.screens.run.read_again import (
    AGAIN,
    NEXT,
    TypedOver,
    can_be_of,
    of_which,
)
from logbook.screens.run.value_shown import ValueShown
from logbook.screens.steps.box_rows import (
    ON_RECORD,
    asked_in,
    operation_of,
    rows_of_sheet,
)
from logbook.screens.steps.saving_sheet import SavingSheet

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

AT_BOX = " at box"
"""What stands before the number of a box, in what its line is kept as."""


class JobSheetTyped(SavingSheet):
    """The boxes of one sheet."""

    CSS_PATH = Path(__file__).parent / "job_sheet.tcss"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        TAKE, BACK_ONE, ON_ONE, DEVIATION, SAVE, LINE_BACK, BACK, *verbs.EVERYWHERE,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    def __init__(self, desk: Desk, typing: SheetTyping, build: str) -> None:
        """Type in this sheet of the build with this id."""
        super().__init__(desk, typing, build)
        self._at = 0
        self._off: Box | None = None
        self._not_taken: dict[int, str] = {}
        self._over: TypedOver[int] | None = None

    @property
    def heading(self) -> str:
        """The sheet and how far it is."""
        return f"job sheet {self._typing.mark}"

    @property
    def _purpose(self) -> str:
        """What the line is kept as; the boxes that were taken are kept besides."""
        return f"line of {self._typing.purpose}{AT_BOX} {self._at + 1}"

    @property
    def box(self) -> Box | None:
        """The box the arrow stands at; none past the last."""
        return self._typing.box(self._at)

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
        self._go_to(self.offer_kept(purpose).removeprefix(purpose).strip())

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
        verdict = suited_word(drawn, judged(drawn, known, None)) if known else ""
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

    @on(Input.Submitted, "#line")
    def _enter(self) -> None:
        box, typed = self.box, self.line.value
        if box is None or not typed.strip():
            self.action_walk(1)
            return
        if not self._keep(box, typed):
            self.line.select_all()
        elif slip := self._typing.slip(box, self.desk.snapshot):
            self._ask_slip(box, slip)
        elif there := self._may_be_of(box):
            self._ask_where(box, there)
        else:
            self._taken(box)

    def _may_be_of(self, box: Box) -> Box | None:
        """Give the next box, where a number typed over a question may be of it."""
        value, there = self._typing.value(box), self._typing.box(self._at + 1)
        over = self._over
        if over is None or value is None or not over.is_open(box.number, value):
            return None
        if there is None or there.sort is not Sort.READING:
            return None
        drawn = self._typing.drawn(there, self.desk.snapshot)
        free = there.number not in self._typing.texts
        return there if free and can_be_of(self.desk.snapshot, drawn, value) else None

    def _ask_where(self, box: Box, there: Box) -> None:
        """Ask whether a number is of this box again, or of the next one."""
        typed, value = self._typing.texts[box.number], self._typing.value(box)
        assert value is not None
        self._keep(box, "")

        def answered(said: Answer) -> None:
            if said.words == AGAIN and self._keep(box, typed):
                self._taken(box)
            elif said.words == NEXT:
                self.line.put("")
                self.action_walk(1)
                self.line.put(typed)
                self._enter()
            else:
                self.line.select_all()

        self.ask(of_which(value, box.label, there.label), answered)

    def _keep(self, box: Box, typed: str) -> bool:
        """Keep what was typed for a box; say why where it is not taken."""
        try:
            self._typing.take(box, typed, self.desk.snapshot)
            self._typing.keep(self.desk.project.root)
        except LogbookError as refusal:
            self.tell(str(refusal), label="not taken")
            return False
        self.follow_readings()
        return True

    def _taken(self, box: Box) -> None:
        """Go to the next box; say it where the one just taken is off its drawing."""
        self.line.put("")
        self.action_walk(1)
        if fault := self._typing.fault(box, self.desk.snapshot):
            self._off = box
            key = self.mapped_keys()(DEVIATION)
            self.tell(
                f"{box.label} {self._typing.value(box)} {fault}: {key} logs it",
                label=f"box {box.number}",
            )

    def _ask_slip(self, box: Box, slip: Slip) -> None:
        """Ask what was meant; unanswered, the box is blank and is typed again."""
        as_typed = self._typing.texts[box.number]

        def answered(said: Answer) -> None:
            if said.words == AS_TYPED:
                self._typing.confirmed.add(box.number)
            typed = {AS_TYPED: as_typed, AS_MEANT: str(slip.meant)}
            kept = self._keep(box, typed.get(said.words or "", ""))
            if kept and said.words in typed:
                self._not_taken.pop(box.number, None)
                self._taken(box)
            elif said.typed_on:
                self._not_taken[box.number] = as_typed
                self._over = TypedOver(box.number, slip.meant)
                self.line.put("")
            else:
                self.line.select_all()

        self.ask(which_of_slip(slip), answered)

    def action_take(self) -> None:
        """Take the box, as Enter does."""
        self._enter()

    def stay_at(self, box: Box) -> None:
        """Go to a box of the sheet."""
        self.action_walk(box.number - 1 - self._at)

    def action_walk(self, by: int) -> None:
        """Go to another box; what was typed and not taken comes back by its key."""
        self._over = None
        if self.line.value:
            self.empty(self._purpose, str(self._at + 1))
        self.keep_now("", self._purpose)
        self._at = max(-1, min(len(self._typing.boxes), self._at + by))
        self.show()

    def put_back(self, text: str, of: str) -> None:
        """Put a line back at the box it was typed for."""
        self._go_to(of)
        super().put_back(text, of)
        self.show()

    def _go_to(self, number: str) -> None:
        if number.isdecimal():
            self._at = min(int(number) - 1, len(self._typing.boxes))

    def action_deviation(self) -> None:
        """Lead from the reading off drawing to its deviation."""
        box = self.box
        snapshot = self.desk.snapshot
        here = box if box and self._typing.fault(box, snapshot) else self._off
        if here is None or not self._typing.fault(here, snapshot):
            nothing = "no reading typed here is off drawing or does not suit"
            self.tell(nothing, label="nothing")
            return

        def answered(said: Answer) -> None:
            if said.words is not None:
                self._log(here, blame_of(said.words))

        self.ask(whose_fault_of(here.label), answered)

    def _log(self, box: Box, blame: Blame) -> None:
        """Keep whose fault it is; the deviation is saved with the sheet."""
        self._typing.blames[box.number] = blame
        try:
            self._typing.keep(self.desk.project.root)
        except LogbookError as refusal:
            self.tell(str(refusal), label="careful")
        self.tell(
            f"{box.label}: {blame.value}; saved with the sheet", label="deviation"
        )
        self.show()

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
