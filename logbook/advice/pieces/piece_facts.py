"""What is on record of a piece: its readings, its deviations, its last rework."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from typing import TypeVar

from logbook.advice.ground.register import remembered
from logbook.quantity import Absent, Quantity
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import (
    Deviation,
    Disposal,
    Failure,
    Reading,
    Run,
    Status,
)
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Disposition, State
from logbook.records.kinds.workshop import Piece
from logbook.records.together.references import refers
from logbook.records.together.snapshot import Snapshot

T = TypeVar("T")

Told = Sequence[tuple[Reading, Run]]
"""Readings in order, each with its run."""

_REWORKED = {Disposition.REWORK, Disposition.REPAIR}


@dataclass(frozen=True, slots=True)
class Facts:
    """What is on record of a piece, and when it was last worked on again.

    Readings, in order, and deviations with a figure are by the id of what was
    measured, else by its name; `named` tells whether any is by its name.
    """

    readings: Mapping[str, Told]
    deviations: Mapping[str, Sequence[Deviation]]
    reworked: datetime | None
    named: bool

    def told(self, what: Characteristic) -> Told:
        """Give what was read of a dimension; a deviation's figure where nothing was."""
        read = self._of(self.readings, what)
        ones = read or [_told(one) for one in self._of(self.deviations, what)]
        return sorted(ones, key=_instant) if self.named and len(ones) > 1 else ones

    def read_before(self, told: Told) -> str:
        """Say which lengths were read last before a rework, as typed, if there was one.

        Of several places the smallest and the largest are given.
        """
        if self.reworked is None:
            return ""
        latest = {
            reading.place.casefold(): reading.value
            for reading, _ in told
            if reading.at < self.reworked
            and isinstance(reading.value, Quantity)
            and reading.value.dimension == "length"
        }
        sizes = sorted(latest.values(), key=lambda size: size.to("mm"))
        ends = dict.fromkeys(str(size) for size in (*sizes[:1], *sizes[-1:]))
        return f"read {' to '.join(ends)} before the rework" if ends else ""

    def _of(self, held: Mapping[str, Sequence[T]], what: Characteristic) -> Sequence[T]:
        """Give what is held of a dimension, by its id or by any name it had."""
        by_id = held.get(what.id, ())
        if not self.named:
            return by_id
        names = dict.fromkeys(n.casefold() for n in (what.title, *what.formerly))
        by_name = (held.get(f"={name}", ()) for name in names)
        return [*by_id, *(one for each in by_name for one in each)]


def _instant(one: tuple[Reading, Run]) -> datetime:
    return one[0].at


def facts_of(snapshot: Snapshot, piece: Piece) -> Facts:
    """Give what is on record of a piece, worked out once for a snapshot."""
    work = partial(_gathered, snapshot, piece)
    return remembered(snapshot, "on record of", (piece,), work)


def _gathered(snapshot: Snapshot, piece: Piece) -> Facts:
    kinds = (Run, Deviation, Status, Disposal, Failure)
    readings: dict[str, list[tuple[Reading, Run]]] = {}
    deviations: dict[str, list[Deviation]] = {}
    reworked: datetime | None = None
    for record in snapshot.mentions(piece, *kinds):
        if not isinstance(record, Run) and _reworked(snapshot, piece, record):
            reworked = record.when
        if not isinstance(record, Run | Deviation):
            continue
        if not refers(snapshot, record.piece, piece):
            continue
        if isinstance(record, Run):
            _put(readings, record)
        elif record.found is not None:
            deviations.setdefault(key_of(record.characteristic), []).append(record)
    # Sorting is stable: readings of one instant stay in the order of their run.
    for ones in readings.values():
        ones.sort(key=_instant)
    named = any(key[0] == "=" for held in (readings, deviations) for key in held)
    return Facts(readings, deviations, reworked, named)


def _put(held: dict[str, list[tuple[Reading, Run]]], run: Run) -> None:
    for reading in run.readings:
        if not isinstance(reading.value, Absent):
            key = reading.what.id or key_of(reading.what)
            held.setdefault(key, []).append((reading, run))


def key_of(ref: Ref | None) -> str:
    """Give what a reference is told apart by: its id, else its name."""
    return "=" if ref is None else ref.id or f"={ref.name.casefold()}"


def _told(record: Deviation) -> tuple[Reading, Run]:
    """Give a deviation's figure as a reading."""
    assert record.found is not None
    what = record.characteristic or Ref("")
    reading = Reading(
        id=record.id, at=record.when, what=what, value=record.found, place=record.place
    )
    return reading, Run(id=record.id, title=record.title, when=record.when)


def _reworked(snapshot: Snapshot, piece: Piece, record: Record) -> bool:
    """Tell whether a record says that a piece was worked on again."""
    if isinstance(record, Status):
        changed = record.state is State.REWORKED
        return changed and snapshot.find(record.of) is piece
    if isinstance(record, Disposal | Failure | Deviation):
        changed = record.disposition in _REWORKED
        return changed and snapshot.find(record.piece) is piece
    return False
