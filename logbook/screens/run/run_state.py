"""The state of a measuring run: what was taken, how it is judged, what is doubted."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from logbook.advice.gaps.held_to_gap import FAULTS, suited_word
from logbook.advice.pieces.uncertainty import judged_by
from logbook.quantity import Absent, Quantity
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.kinds.workshop import Instrument
from logbook.records.sizes.expected import expected_of
from logbook.records.sizes.verdict_word import judged
from logbook.records.states.wanted import only_wanted
from logbook.screens.run.in_hand import can_read, used_last
from logbook.screens.run.read_again import also_not_taken
from logbook.screens.run.slot_history import deviation_on, earlier, undecided_at
from logbook.screens.run.slots import Slot
from logbook.screens.run.walk import Records, Taking, Walk
from logbook.screens.run.warmth import Warmth

"""Verdicts from which a deviation is led to, as a sentence has them."""


class RunState:
    """What was taken on the walk so far, and with what.

    `held` is how the piece is held or what it is like (clamped, cold), for all that
    follows, `warmth` what is told of the room; `doubted` are numbers that were not
    taken, with why, by their size.
    `announced` is the reading of which it was said last that it is off its drawing.
    """

    def __init__(self, records: Records, walk: Walk) -> None:
        """Begin with nothing taken, and with the instrument that was used last."""
        self._records = records
        self.walk = walk
        self.held = ""
        self.instrument = used_last(records.snapshot)
        self.warmth = Warmth()
        self.doubted: dict[tuple[str, str, str], tuple[str, str]] = {}
        self.announced = ""
        self.logging: set[str] = set()
        self._in_turn: list[str] = []

    def taking(self, slot: Slot) -> Taking:
        """Give the run on the piece of this size."""
        return self.walk.takings[slot.piece]

    def only_wanted(self, slot: Slot) -> bool:
        """Tell whether no drawing gives this size, and somebody wanted it."""
        item = slot.drawn.characteristic if slot.drawn else None
        return item is not None and only_wanted(self._records.snapshot, item)

    def take(self, slot: Slot, reading: Reading) -> None:
        """Take a reading of a size, the newest of this run."""
        self.taking(slot).readings.append(reading)
        self._in_turn.append(reading.id)

    def go_on(self, runs: Iterable[Sequence[str]]) -> None:
        """Go on with runs that were interrupted, each named behind its piece.

        How the piece was held stays as it was at the last reading.
        """
        found: list[tuple[Reading, Taking]] = []
        for piece, identity in runs:
            run = self._records.snapshot.by_id(identity, Run)
            if run is not None and (taking := self.walk.takings.get(piece)):
                taking.run = run.id
                found += [(reading, taking) for reading in run.readings]
        for reading, taking in sorted(found, key=lambda one: one[0].at):
            taking.readings.append(reading)
            self._in_turn.append(reading.id)
            self.held = reading.state

    def taken(self, slot: Slot) -> list[Reading]:
        """Give what was read of a size in this run, oldest first."""
        return self.taking(slot).of(slot)

    def last_value(self, slot: Slot) -> Quantity | None:
        """Give what a size read last, in this run or before it."""
        taken = self.taken(slot)
        last = taken[-1] if taken else earlier(self._records.snapshot, slot)
        return last.value if last and isinstance(last.value, Quantity) else None

    def read_elsewhere(self, slot: Slot) -> Quantity | None:
        """Give what a size that nothing is drawn of is known to be like."""
        drawn, snapshot = slot.drawn, self._records.snapshot
        known = expected_of(snapshot, drawn) if drawn else None
        return known.size if known else None

    def read_last(self) -> Slot | None:
        """Give the size that was read last in this run."""
        order = self._order()
        read = [
            (order[taken[-1].id], at)
            for at, slot in enumerate(self.walk.slots)
            if (taken := self.taken(slot))
        ]
        return self.walk.slots[max(read)[1]] if read else None

    def _order(self) -> dict[str, int]:
        """Give when each was taken among the others, whichever piece it is of."""
        return {identity: at for at, identity in enumerate(self._in_turn)}

    # -- how it is judged --------------------------------------------------------

    def judged(self, slot: Slot, read: Reading | Quantity) -> str:
        """Judge a reading by what it was taken with, a number by what is in hand."""
        if isinstance(read, Quantity):
            tool = self.instrument
            return _said(slot, read, tool if tool and can_read(tool, read) else None)
        tool = self._records.snapshot.find(read.instrument, Instrument)
        return _said(slot, read.value, tool)

    def fault(self, slot: Slot, reading: Reading) -> str:
        """Say what a deviation is led to from, as a sentence has it; else nothing."""
        return FAULTS.get(self.judged(slot, reading), "")

    def stands_beside(self, slot: Slot, reading: Reading) -> str:
        """Say that a deviation of another value at this place is undecided still."""
        before = undecided_at(self._records.snapshot, slot)
        if before is None or before.found in (None, reading.value):
            return ""
        at = slot.place or slot.what
        return f"the deviation {before.found} at {at} stands, undecided"

    def off(self) -> tuple[Slot, Reading] | None:
        """Give the reading off drawing: the one announced last, or where it stands.

        Else the last that is not logged.
        """
        found = [
            (slot, reading)
            for slot in self.walk.slots
            for reading in self.taken(slot)[-1:]
            if self.fault(slot, reading)
        ]
        order = self._order()
        said = [one for one in found if one[1].id == self.announced]
        here = [one for one in found if one[0] is self.walk.slot]
        newest = sorted(found, key=lambda one: -order[one[1].id])
        open_yet = [one for one in newest if not self.is_logged(*one)]
        return next(iter([*said, *here, *open_yet, *newest]), None)

    def is_logged(self, slot: Slot, reading: Reading) -> bool:
        """Tell whether a deviation was made of this reading, or is being written."""
        known = deviation_on(self._records.snapshot, self.taking(slot).subject, reading)
        return known is not None or reading.id in self.logging

    # -- what is doubted, what is gone -------------------------------------------

    def doubt(self, slot: Slot, text: str, why: str) -> None:
        """Leave a number at its place, not taken: its row says so for this run.

        What was not taken there before stands beside it.
        """
        before, _ = self.doubted.get(slot.where, ("", ""))
        self.doubted[slot.where] = (also_not_taken(before, text.strip()), why)

    def settle(self, slot: Slot) -> None:
        """Let go of the doubt at a place: what was meant is known."""
        self.doubted.pop(slot.where, None)

    def left_open(self) -> list[tuple[Slot, str]]:
        """Give the places where a number was not taken and nothing was read."""
        return [
            (slot, self.doubted[slot.where][0])
            for slot in self.walk.slots
            if slot.where in self.doubted and not self.taken(slot)
        ]

    def read_back(self) -> None:
        """Take the readings as they are on disk; stand where one is gone, to retype."""
        self.logging.clear()  # by now the records tell of what was written
        gone: Slot | None = None
        for taking in self.walk.takings.values():
            run = self._records.snapshot.by_id(taking.run, Run)
            before, kept = taking.readings, run.readings if run else ()
            taking.readings = list(kept)
            for lost in (one for one in before if one not in kept):
                gone = next((s for s in self.walk.slots if s.takes(lost)), gone)
        self.walk.follow()
        if gone is not None:
            self.walk.stand_at(gone)


def _said(slot: Slot, value: Quantity | Absent, tool: Instrument | None) -> str:
    """Judge a value; what is made to suit is held to its gap, not to a drawing."""
    said = judged(slot.drawn, value, judged_by(tool, value, slot.drawn))
    return suited_word(slot.drawn, said)
