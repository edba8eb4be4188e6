"""The pieces made: the state and the readings of each, the build they go into now.

Nothing is stored; each answer follows from the entries by instant and id.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from logbook.quantity import Absent
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import (
    Deviation,
    Disposal,
    Entry,
    Failure,
    Reading,
    Run,
    Status,
)
from logbook.records.kinds.words import Disposition, State
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.together.references import is_of, refers
from logbook.records.together.snapshot import Snapshot


def pieces_of(snapshot: Snapshot, part: Part) -> tuple[Piece, ...]:
    """Give the pieces of a part, oldest first; those made together by their numbers."""
    mentioned = snapshot.mentions(part, Piece)
    found = (p for p in mentioned if refers(snapshot, p.part, part))
    return tuple(sorted(found, key=lambda one: (one.when, one.number)))


_DISPOSED = {
    Disposition.SCRAP: State.SCRAPPED,
    Disposition.RETURN: State.SENT_OUT,
    Disposition.REWORK: State.REWORKED,
    Disposition.REPAIR: State.REWORKED,
}


def piece_state(snapshot: Snapshot, piece: Piece) -> State:
    """Work out the state of a piece from its entries; a piece on record is made."""
    return last_word(snapshot, piece)[0]


_GONE = frozenset({State.SCRAPPED, State.LOST, State.TAKEN_OUT, State.SENT_OUT})


def is_gone(snapshot: Snapshot, piece: Piece) -> bool:
    """Tell whether a piece is at the bench no more: scrapped, lost, out or sent out."""
    return piece_state(snapshot, piece) in _GONE


def is_on_hand(snapshot: Snapshot, piece: Piece) -> bool:
    """Tell whether a piece is at the bench: not gone, nor ordered and yet to come."""
    state = piece_state(snapshot, piece)
    return state not in _GONE and state is not State.ORDERED


def last_word(snapshot: Snapshot, piece: Piece) -> tuple[State, Entry | None]:
    """Give the state of a piece and the entry that says so; none says it is made."""
    state: State = State.MADE
    by: Entry | None = None
    for record in snapshot.mentions(piece, Status, Disposal, Failure, Deviation):
        if isinstance(record, Status) and snapshot.find(record.of) is piece:
            state, by = record.state, record
        elif (
            isinstance(record, Disposal | Failure | Deviation)
            and record.disposition
            and snapshot.find(record.piece) is piece
            and (disposed := _DISPOSED.get(record.disposition))
        ):
            state, by = disposed, record
    return state, by


class Taken(NamedTuple):
    """A reading with the run it belongs to."""

    reading: Reading
    run: Run

    @property
    def state(self) -> str:
        """Give the state it was read in, coated or clamped; else that of its run."""
        return self.reading.state or self.run.state

    @property
    def value(self) -> Fraction | None:
        """Give the exact value in the reading's own unit, None when absent."""
        return (
            None if isinstance(self.reading.value, Absent) else self.reading.value.value
        )


def readings_of(
    snapshot: Snapshot, piece: Piece, characteristic: Characteristic | None = None
) -> tuple[Taken, ...]:
    """Give the readings of a piece in the order they were taken."""
    # Sorting is stable: readings of one instant stay in the order of their run.
    found = _taken(snapshot, piece, characteristic)
    return tuple(sorted(found, key=lambda taken: taken.reading.at))


def _taken(
    snapshot: Snapshot, piece: Piece, characteristic: Characteristic | None
) -> Iterator[Taken]:
    for run in snapshot.mentions(piece, Run):
        if not refers(snapshot, run.piece, piece):
            continue
        for reading in run.readings:
            if characteristic is None or is_of(reading.what, characteristic):
                yield Taken(reading, run)


def current_build(snapshot: Snapshot) -> Build | None:
    """Give the build the last entry belongs to, else the newest build."""
    builds = snapshot.all(Build)
    for entry in reversed(snapshot.entries if builds else ()):
        found = snapshot.find(entry.build, Build)
        if found is not None:
            return builds[-1] if builds[-1].when > entry.when else found
    return builds[-1] if builds else None
