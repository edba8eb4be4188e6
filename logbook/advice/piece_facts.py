"""What is on record of a piece: its readings in order, deviations, reworks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import partial

from logbook.advice.register import remembered
from logbook.quantity import Absent, Quantity
from logbook.records.design import Characteristic
from logbook.records.happenings import (
    Deviation,
    Disposal,
    Failure,
    Reading,
    Run,
    Status,
)
from logbook.records.ids import Ref
from logbook.records.record import Record
from logbook.records.references import refers
from logbook.records.snapshot import Snapshot
from logbook.records.words import Disposition, State
from logbook.records.workshop import Piece

_REWORKED = {Disposition.REWORK, Disposition.REPAIR}


@dataclass(frozen=True, slots=True)
class Facts:
    """What is on record of a piece: readings in order, deviations, reworks.

    Readings and deviations are by the id of what was measured, else by its name.
    """

    readings: Mapping[str, Sequence[tuple[Reading, Run]]]
    deviations: Mapping[str, Sequence[tuple[Reading, Run]]]
    reworks: tuple[datetime, ...]


def facts_of(snapshot: Snapshot, piece: Piece) -> Facts:
    """Give what is on record of a piece, worked out once for a snapshot."""
    work = partial(_gathered, snapshot, piece)
    return remembered(snapshot, "on record of", (piece,), work)


def _gathered(snapshot: Snapshot, piece: Piece) -> Facts:
    readings: dict[str, list[tuple[Reading, Run]]] = {}
    deviations: dict[str, list[tuple[Reading, Run]]] = {}
    reworks: list[datetime] = []
    for record in snapshot.mentions(piece, Run, Deviation, Status, Disposal, Failure):
        if _reworked(snapshot, piece, record):
            reworks.append(record.when)
        if not isinstance(record, Run | Deviation):
            continue
        if not refers(snapshot, record.piece, piece):
            continue
        if isinstance(record, Run):
            for reading in record.readings:
                if not isinstance(reading.value, Absent):
                    _put(readings, reading.what, (reading, record))
        elif record.found is not None:
            told = _told(record, record.found)
            _put(deviations, told[0].what, told)
    # Sorting is stable: readings of one instant stay in the order of their run.
    for ones in readings.values():
        ones.sort(key=lambda one: one[0].at)
    return Facts(readings, deviations, tuple(reworks))


def _put(
    held: dict[str, list[tuple[Reading, Run]]], what: Ref, one: tuple[Reading, Run]
) -> None:
    held.setdefault(what.id or f"={what.name.casefold()}", []).append(one)


def _told(record: Deviation, found: Quantity) -> tuple[Reading, Run]:
    """Give a deviation's figure as a reading."""
    what = record.characteristic or Ref("")
    reading = Reading(
        id=record.id, at=record.when, what=what, value=found, place=record.place
    )
    return reading, Run(id=record.id, title=record.title, when=record.when)


def of_size(
    held: Mapping[str, Sequence[tuple[Reading, Run]]], what: Characteristic
) -> list[tuple[Reading, Run]]:
    """Give what is held of a dimension, by its id or by any name it had, in order."""
    names = dict.fromkeys(n.casefold() for n in (what.title, *what.formerly))
    found = [held.get(key, ()) for key in (what.id, *(f"={n}" for n in names))]
    ones = [one for each in found for one in each]
    if sum(map(bool, found)) > 1:
        ones.sort(key=lambda one: one[0].at)
    return ones


def _reworked(snapshot: Snapshot, piece: Piece, record: Record) -> bool:
    """Tell whether a record says that a piece was worked on again."""
    if isinstance(record, Status):
        changed = record.state is State.REWORKED
        return changed and snapshot.find(record.of) is piece
    if isinstance(record, Disposal | Failure | Deviation):
        changed = record.disposition in _REWORKED
        return changed and snapshot.find(record.piece) is piece
    return False
