"""A job sheet as values: its operations in printed order, and their boxes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import groupby

from logbook.advice.ground.advice import STANDING
from logbook.publish.sheet.boxes import Box, mark_of
from logbook.publish.signals import Caution
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Build


@dataclass(frozen=True, slots=True)
class Wanted:
    """What to print: which build, steps and parts (none: all), and how much.

    `pieces` new pieces are given boxes where a part has none yet; `everything`
    prints what is done and measured already, `overrides` the private reasons.
    """

    build: Build | None = None
    steps: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    pieces: int = 1
    everything: bool = False
    overrides: bool = False


@dataclass(frozen=True, slots=True)
class Waiting:
    """Something to wait for or to check, and the box for the reason to go on.

    What was declared by hand has a box to tick before it, once it is `over`.
    """

    grade: str
    words: str
    box: Box
    over: Box | None = None

    @property
    def holds(self) -> bool:
        """Tell whether it waits, and is not only to be checked."""
        return self.grade == Grade.WAIT

    @property
    def boxes(self) -> tuple[Box, ...]:
        """Give its boxes in the order they are printed."""
        return (self.over, self.box) if self.over else (self.box,)


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation as printed; `number` is 0 where only readings are taken."""

    number: int
    title: str
    step: str = ""
    cautions: tuple[Caution, ...] = ()
    facts: tuple[tuple[str, str], ...] = ()
    waits: tuple[Waiting, ...] = ()
    went_on: tuple[str, ...] = ()
    readings: tuple[Box, ...] = ()
    trapped: str = ""
    checks: tuple[Box, ...] = ()
    done: Box | None = None
    time: Box | None = None
    note: Box | None = None

    @property
    def by_owner(self) -> list[tuple[str, list[Box]]]:
        """Give the readings piece by piece, as they follow each other."""
        found = groupby(self.readings, key=lambda box: box.owner)
        return [(owner, list(boxes)) for owner, boxes in found]

    @property
    def boxes(self) -> Iterator[Box]:
        """Give its boxes in the order they are printed."""
        yield from (box for wait in self.waits for box in wait.boxes)
        yield from self.readings
        yield from self.checks
        yield from (box for box in (self.done, self.time, self.note) if box)


@dataclass(frozen=True, slots=True)
class JobSheet:
    """A whole sheet; `mark` is what it is typed in by, `finished` what is done.

    `by` is the release the build goes by, empty where it goes by none.
    """

    project: str
    build: str
    build_id: str
    printed: datetime
    operations: tuple[Operation, ...]
    finished: tuple[str, ...] = ()
    by: str = ""
    standing: str = STANDING

    @property
    def boxes(self) -> tuple[Box, ...]:
        """Give all boxes in printed order."""
        return tuple(box for one in self.operations for box in one.boxes)

    @property
    def held(self) -> tuple[Operation, ...]:
        """Give the operations that wait for something."""
        return tuple(
            one for one in self.operations if any(wait.holds for wait in one.waits)
        )

    @property
    def mark(self) -> str:
        """Give the mark of this sheet, the same for the same boxes."""
        return mark_of(self.boxes, self.build_id)


def numbered(operations: Sequence[Operation]) -> tuple[Operation, ...]:
    """Give the boxes their running numbers, in printed order."""
    numbers = iter(range(1, 100_000))

    def one(box: Box) -> Box:
        return replace(box, number=next(numbers))

    def waiting(wait: Waiting) -> Waiting:
        over = one(wait.over) if wait.over else None
        return replace(wait, over=over, box=one(wait.box))

    made = []
    for operation in operations:
        waits = tuple(waiting(wait) for wait in operation.waits)
        readings = tuple(one(box) for box in operation.readings)
        checks = tuple(one(box) for box in operation.checks)
        done, time, note = (
            one(box) if box else None
            for box in (operation.done, operation.time, operation.note)
        )
        made.append(
            replace(
                operation, waits=waits, readings=readings, checks=checks,
                done=done, time=time, note=note,
            )
        )  # fmt: skip
    return tuple(made)
