"""Measuring a batch: one size across all pieces of a part, then the next size."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, ClassVar

from textual.binding import BindingType

from logbook.quantity import Absent
from logbook.records.kinds.design import Part
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled import verbs
from logbook.screens.run.batches import begin, here_of, these
from logbook.screens.run.measure import Measure
from logbook.screens.run.measure_verbs import (
    BACK_IN_RUN,
    BACK_ONE,
    DEVIATION,
    ON_ONE,
    REST,
    ROOM,
    TAKE,
    WITH,
)
from logbook.screens.run.slots import Slot
from logbook.screens.run.typed_reading import Typed
from logbook.screens.run.walk import Walk

NEXT_SIZE = verbs.Verb("next_size", "next size", "f4", "Go to the next size.")
GAUGE = verbs.Verb(
    "all_fine", "all fine by gauge", "f5", "Say that the rest passed the gauge."
)
PASSED = "passed the gauge"


class Across(Walk):
    """A walk across the pieces of a part: one size on every piece, then the next."""

    what = ""

    def found(self) -> list[Slot]:
        """Give one size on every piece; the first size until another is chosen."""
        every = super().found()
        sizes = _sizes(every)
        if sizes and self.what not in sizes:
            self.what = sizes[0]
        return [slot for slot in every if slot.what == self.what]

    def next_size(self) -> None:
        """Go to the next size, on the first piece it was never read of."""
        sizes = _sizes(super().found())
        if sizes:
            at = sizes.index(self.what) if self.what in sizes else -1
            self.what = sizes[(at + 1) % len(sizes)]
            self.begin()


def _sizes(slots: Sequence[Slot]) -> list[str]:
    return list(dict.fromkeys(slot.what for slot in slots))


class Grid(Measure):
    """A run across the pieces of a part."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        TAKE, BACK_ONE, ON_ONE, NEXT_SIZE, GAUGE, DEVIATION, BACK_IN_RUN, REST, WITH,
        ROOM, *verbs.EVERYWHERE, verbs.BRING_BACK,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    def __init__(
        self, desk: Desk, part_id: str, new: int = 0, numbers: Sequence[int] = ()
    ) -> None:
        """Measure all pieces of this part in the build shown, or so many new ones.

        Those of a batch that is gone on with are named by their `numbers`.
        """
        part = desk.snapshot[part_id]
        assert isinstance(part, Part)
        if numbers:
            subjects = these(desk, part, numbers)
        else:
            subjects = begin(desk, part, new) if new else here_of(desk, part)
        self._numbers = tuple(one.number for one in subjects)
        self._across = Across(desk, subjects)
        super().__init__(desk, subjects, self._across)
        self._part, self._part_id = part.title, part.id

    @property
    def measured(self) -> str:
        """The part and how many pieces of it."""
        return f"batch of {len(self.walk.takings)}: {self._part}"

    @property
    def heading(self) -> str:
        """The batch, how many of its rows are read, and with what."""
        tool = super().heading.removeprefix(self.measured)
        return f"{self.heading_short}{tool}"

    @property
    def heading_short(self) -> str:
        """The batch, and how many of its rows are read."""
        slots = self.walk.slots
        read = sum(bool(self.state.taken(slot)) for slot in slots)
        return f"{self.measured} · {read} of {len(slots)} read"

    WAY = "go_on_with_batch"

    @property
    def about_here(self) -> tuple[Any, ...]:
        """The part, the size on all pieces, the runs begun, where it stands, which."""
        begun = self.walk.runs(), self.walk.stands_at, self.state.warmth.kept
        return self._part_id, self._across.what, *begun, self._numbers

    def go_on_across(self, what: str) -> None:
        """Go on with a batch that was interrupted, with this size on all pieces."""
        self._across.what = what

    def show(self) -> None:
        """Show the rows, and in the band how many of them are read."""
        super().show()
        self.show_band()

    @property
    def purpose(self) -> str:
        """What the line is kept as, however many pieces the batch has by now."""
        return f"line of a batch of {self._part}"

    def label_of(self, slot: Slot) -> str:
        """Give the piece, since the size is the same on all rows."""
        return slot.piece

    def place_of(self, slot: Slot) -> str:
        """Give the piece and the place on it."""
        return " ".join(filter(None, (slot.piece, slot.place)))

    def stands_at(self, slot: Slot) -> str:
        """Say at which size of which piece the run stands."""
        return f"{slot.what} of {self.place_of(slot)}"

    def action_next_size(self) -> None:
        """Go to the next size, on the first piece."""
        self._across.next_size()
        self.show()

    def action_all_fine(self) -> None:
        """Say of every piece not measured in this run that it passed the gauge."""
        left = [slot for slot in self.walk.slots if not self.state.taken(slot)]
        for slot in left:
            self.put_one(Typed(Absent.NOT_MEASURED, note=PASSED), slot, "")
        self.walk.go(len(self.walk.slots))
        self.tell(f"{len(left)} passed the gauge", label=self._across.what[:11])
        self.show()
