"""Measuring a batch: one size across all pieces of a part, then the next size."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import BindingType

from logbook.quantity import Absent
from logbook.records.design import Part
from logbook.records.pieces import piece_state, pieces_of
from logbook.screens import verbs
from logbook.screens.choosing import Choosing
from logbook.screens.desk import Desk
from logbook.screens.facts import GONE
from logbook.screens.listing import Line
from logbook.screens.measure import (
    BACK_IN_RUN,
    BACK_ONE,
    DEVIATION,
    ON_ONE,
    REST,
    TAKE,
    WITH,
    Measure,
)
from logbook.screens.measuring import Slot, Subject, earlier, slots_of
from logbook.screens.passage import Say
from logbook.screens.typed_reading import Typed

NEXT_SIZE = verbs.Verb("next_size", "next size", "f4", "Go to the next size.")
GAUGE = verbs.Verb(
    "all_fine", "all fine by gauge", "f5", "Say that the rest passed the gauge."
)
PASSED = "passed the gauge"


class Batches(Choosing):
    """The parts of which more than one piece is there."""

    ASKS = "the name of a part"
    NOTHING = "no part with pieces"
    MARGIN_WORD = "which ›"

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the parts that fit, those with most pieces first."""
        found = [
            (len(here_of(self.desk, part)), part)
            for part in self.desk.snapshot.all(Part)
            if typed.casefold() in part.title.casefold()
        ]
        found.sort(key=lambda one: -one[0])
        return [
            Line(part.id, str(count), part.title, "piece" if count == 1 else "pieces")
            for count, part in found
            if count
        ]

    def about(self, line: Line) -> Sequence[Say]:
        """Say what each piece of the part read last, size by size."""
        snapshot = self.desk.snapshot
        part = snapshot[line.key]
        assert isinstance(part, Part)
        said = []
        for subject in here_of(self.desk, part):
            reads = []
            for slot in slots_of(snapshot, subject):
                before = earlier(snapshot, slot)
                at = " ".join(filter(None, (slot.what, slot.place)))
                reads.append(f"{at} {before.value if before else 'not measured'}")
            said.append(Say(f"piece {subject.number}", " · ".join(reads)))
        return said


def here_of(desk: Desk, part: Part) -> list[Subject]:
    """Give the pieces of a part that are still there."""
    return [
        Subject(part.title, piece.number, piece.title)
        for piece in pieces_of(desk.snapshot, part)
        if piece_state(desk.snapshot, piece) not in GONE
    ]


class Grid(Measure):
    """A run across the pieces of a part."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        TAKE, BACK_ONE, ON_ONE, NEXT_SIZE, GAUGE, DEVIATION, BACK_IN_RUN, REST, WITH,
        *verbs.EVERYWHERE,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    def __init__(self, desk: Desk, part_id: str) -> None:
        """Measure all pieces of this part."""
        part = desk.snapshot[part_id]
        assert isinstance(part, Part)
        super().__init__(desk, here_of(desk, part))
        self._part = part.title
        self._what = ""

    @property
    def measured(self) -> str:
        """The part and how many pieces of it."""
        return f"batch of {len(self._takings)}: {self._part}"

    def found_slots(self) -> list[Slot]:
        """Give one size on every piece; the first size until another is chosen."""
        every = super().found_slots()
        sizes = list(dict.fromkeys(slot.what for slot in every))
        if sizes and self._what not in sizes:
            self._what = sizes[0]
        return [slot for slot in every if slot.what == self._what]

    def label_of(self, slot: Slot) -> str:
        """Give the piece, since the size is the same on all rows."""
        return slot.piece

    def action_next_size(self) -> None:
        """Go to the next size, on the first piece."""
        subjects = [taking.subject for taking in self._takings.values()]
        every = [s for one in subjects for s in slots_of(self.desk.snapshot, one)]
        sizes = list(dict.fromkeys(slot.what for slot in every))
        if sizes:
            at = sizes.index(self._what) if self._what in sizes else -1
            self._what = sizes[(at + 1) % len(sizes)]
            self._slots, self._at = self.found_slots(), 0
        self.show()

    def action_all_fine(self) -> None:
        """Say of every piece not measured in this run that it passed the gauge."""
        left = [slot for slot in self._slots if not self._taken(slot)]
        for slot in left:
            typed = Typed(Absent.NOT_MEASURED, note=PASSED)
            self._put_one(typed, slot, "")
        self._at = len(self._slots)
        self.tell(f"{len(left)} passed the gauge", label=self._what[:11])
        self.show()
