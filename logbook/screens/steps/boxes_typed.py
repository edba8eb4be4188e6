"""Boxes of a job sheet typed one after the other: read, judged, asked about, kept."""

from __future__ import annotations

from textual import on
from textual.widgets import Input

from logbook.errors import LogbookError
from logbook.publish.sheet.boxes import Box, Sort
from logbook.publish.sheet.sheet_typing import SheetTyping
from logbook.records.kinds.words import Blame
from logbook.records.sizes.slips import Slip
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled.asking import (
    AS_MEANT,
    AS_TYPED,
    Answer,
    blame_of,
    which_of_slip,
    whose_fault_of,
)
from logbook.screens.run.measure_verbs import DEVIATION
from logbook.screens.run.read_again import (
    AGAIN,
    NEXT,
    TypedOver,
    also_not_taken,
    can_be_of,
    of_which,
)
from logbook.screens.steps.saving_sheet import SavingSheet

AT_BOX = " at box"
"""What stands before the number of a box, in what its line is kept as."""


class BoxesTyped(SavingSheet):
    """A sheet whose line takes the boxes of a job sheet."""

    def __init__(self, desk: Desk, typing: SheetTyping, build: str) -> None:
        """Type in this sheet of the build with this id."""
        super().__init__(desk, typing, build)
        self._at = 0
        self._off: Box | None = None
        self._not_taken: dict[int, str] = {}
        self._over: TypedOver[int] | None = None

    @property
    def box(self) -> Box | None:
        """The box the arrow stands at; none past the last."""
        return self._typing.box(self._at)

    @property
    def _purpose(self) -> str:
        """What the line is kept as; the boxes that were taken are kept besides."""
        return f"line of {self._typing.purpose}{AT_BOX} {self._at + 1}"

    def show(self) -> None:
        """Show the boxes, and the one the arrow stands at."""
        raise NotImplementedError

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
        sure = box.number in self._typing.confirmed
        self._keep(box, "")

        def answered(said: Answer) -> None:
            if said.words == AGAIN and self._keep(box, typed):
                self._typing.confirmed |= {box.number} if sure else set()
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
                self._settled(box)
            elif said.typed_on:
                before = self._not_taken.get(box.number, "")
                self._not_taken[box.number] = also_not_taken(before, as_typed)
                self._over = TypedOver(box.number, slip.meant)
                self.line.put("")
                self.show()
            else:
                self.line.select_all()

        self.ask(which_of_slip(slip), answered)

    def _settled(self, box: Box) -> None:
        """Take what was meant; over the question of another number it may be elsewhere.

        That other one is not settled by it.
        """
        if there := self._may_be_of(box):
            self._ask_where(box, there)
            return
        if self._over is None:
            self._not_taken.pop(box.number, None)
        self._taken(box)

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

    def typed_over(self, text: str) -> None:
        """Keep what was typed over, for the box it was typed at."""
        self.let_go(self._purpose, text, str(self._at + 1))

    def put_back(self, text: str, of: str) -> None:
        """Put a line back at the box it was typed for."""
        self.go_to(of)
        super().put_back(text, of)
        self.show()

    def go_to(self, number: str) -> None:
        """Stand at the box of this number, where it is one."""
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
