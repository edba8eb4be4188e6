"""The walk of a measuring run: its sizes in order, and the one it stands at.

It follows the records: a size that was drawn meanwhile comes into the list, one that
was typed in this run stays in it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Protocol

from logbook.advice.advisor import Told
from logbook.advice.gaps.held_to_gap import held_to_gap
from logbook.errors import BadInput
from logbook.records.kinds.happenings import Reading
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.workshop import Build
from logbook.records.sizes.definition import Dimension
from logbook.records.together.snapshot import Snapshot
from logbook.screens.run.slot_history import earlier, most_doubtful_first
from logbook.screens.run.slots import Slot, Subject, checked, piece_of, slots_of
from logbook.screens.run.typed_reading import Typed

PAST = "another size"
"""Where a run stands past the last of its sizes."""


class Records(Protocol):
    """What a run is taken on: the records as they are by now, and their advice."""

    advice: Told
    build: Build | None

    @property
    def snapshot(self) -> Snapshot:
        """The records at this moment."""


@dataclass
class Taking:
    """One run being taken on one piece: its readings so far, and what they are of."""

    subject: Subject
    run: str = field(default_factory=new_id)
    readings: list[Reading] = field(default_factory=list)

    def of(self, slot: Slot) -> list[Reading]:
        """Give what was read of a size in this run, oldest first."""
        return [reading for reading in self.readings if slot.takes(reading)]


class Walk:
    """The sizes of the pieces that are measured, one after the other."""

    def __init__(self, records: Records, subjects: Sequence[Subject]) -> None:
        """Walk through the sizes of these pieces; a run of its own is on each."""
        self._records = records
        self.takings = {one.title: Taking(one) for one in subjects}
        self.doubtful_first = False
        self._suits: dict[tuple[str, str], Dimension] = {}
        self.slots: list[Slot] = []
        self.at = 0

    @property
    def slot(self) -> Slot | None:
        """The size the run stands at; none past the last, and on a new part."""
        return self.slots[self.at] if self.at < len(self.slots) else None

    @property
    def stands_at(self) -> str:
        """The name of the size the run stands at, by which it is found again."""
        return self.slot.named if self.slot else PAST

    def begin(self) -> None:
        """Start at the first size that was never read, else at the first of all."""
        self.slots, snapshot = self.found(), self._records.snapshot
        unread = (n for n, s in enumerate(self.slots) if earlier(snapshot, s) is None)
        self.at = next(unread, 0)

    def found(self) -> list[Slot]:
        """Give the sizes to walk through, as the records have them now."""
        snapshot, found = self._records.snapshot, []
        for taking in self.takings.values():
            slots = slots_of(snapshot, taking.subject, self._records.build)
            found += [self._suited(slot) for slot in slots]
        return most_doubtful_first(snapshot, found) if self.doubtful_first else found

    def _suited(self, slot: Slot) -> Slot:
        """Give a size made to suit its gap the limits that were wanted of it.

        Those the run began with stay: once it is read, the gap wants none any more.
        """
        if slot.drawn is None:
            return slot
        key = slot.piece, slot.drawn.characteristic.id
        records, snapshot = self._records, self._records.snapshot
        piece = piece_of(snapshot, self.takings[slot.piece].subject)
        found = held_to_gap(
            snapshot, records.advice.advice, slot.drawn, piece, records.build
        )
        if found is not slot.drawn:
            self._suits.setdefault(key, found)
        return replace(slot, drawn=self._suits.get(key, slot.drawn))

    def follow(self) -> None:
        """Follow the records; sizes and places just typed stay in the list."""
        fresh = self.found()
        known = {one.where for one in fresh}
        for slot in self.slots:
            if slot.where not in known and self.takings[slot.piece].of(slot):
                fresh.append(slot)
        here = self.slot
        self.slots = fresh
        if here is not None:
            self.stand_at(here)

    def stand_at(self, wanted: Slot) -> None:
        """Go to a size; where it is not in the list any more, stay."""
        for at, slot in enumerate(self.slots):
            if slot.where == wanted.where:
                self.at = at
                return

    def behind(self, slot: Slot) -> Slot | None:
        """Give the size that comes behind this one in the list."""
        wheres = [one.where for one in self.slots]
        at = wheres.index(slot.where) + 1 if slot.where in wheres else len(wheres)
        return self.slots[at] if at < len(self.slots) else None

    def go_to_size(self, what: str) -> None:
        """Go to the first place of the size called this; where there is none, stay."""
        called = (at for at, slot in enumerate(self.slots) if slot.what == what)
        self.at = next(called, self.at)

    def go_to(self, named: str) -> None:
        """Go to the size with this name, or past the last; where none is, stay."""
        names = [*(slot.named for slot in self.slots), PAST]
        self.at = names.index(named) if named in names else self.at

    def go(self, by: int) -> None:
        """Go to another size; past the last one new ones are typed."""
        self.at = max(0, min(len(self.slots), self.at + by))

    def go_to_unread(self) -> None:
        """Go to the first size that has no reading in this run, else past the last."""
        unread = (
            n for n, s in enumerate(self.slots) if not self.takings[s.piece].of(s)
        )
        self.at = next(unread, len(self.slots))

    def runs(self) -> tuple[tuple[str, str], ...]:
        """Give each run that has readings, behind the piece it is on."""
        return tuple(
            (name, one.run) for name, one in self.takings.items() if one.readings
        )

    def turn_round(self) -> None:
        """Walk in drawing order, or most doubtful first; from the first size."""
        self.doubtful_first = not self.doubtful_first
        self.begin()

    # -- which size is meant -----------------------------------------------------

    def meant(self, said: Sequence[Typed]) -> list[Slot]:
        """Give the size each reading is of, new ones put into the list.

        Raises:
            BadInput: one of them cannot be of its size; no new size is kept.
        """
        slots, at = list(self.slots), self.at
        try:
            found = [self._meant(typed) for typed in said]
            for typed, slot in zip(said, found, strict=True):
                checked(self._records.snapshot, typed, slot)
        except BadInput:
            self.slots, self.at = slots, at
            raise
        return found

    def _meant(self, typed: Typed) -> Slot:
        """Give the size that was typed, a new one put after where the run stands."""
        here = self.slot
        piece = here.piece if here else next(iter(self.takings))
        what = typed.what or (here.what if here else "")
        place = typed.place or ("" if typed.what or here is None else here.place)
        same = [s for s in self.slots if s.what.casefold() == what.casefold()]
        slot = Slot(piece, what, place, same[0].drawn if same else None)
        if slot.where not in [one.where for one in self.slots]:
            after = min(self.at + 1, len(self.slots)) if same else len(self.slots)
            self.slots.insert(after, slot)
        self.stand_at(slot)
        return self.slots[self.at]
