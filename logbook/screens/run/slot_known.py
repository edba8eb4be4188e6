"""What is known of the size a run stands at: its limits, what it read, here and before.

Said beside the list, where a screen is wide enough for it.
"""

from __future__ import annotations

from collections.abc import Iterator

from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Reading
from logbook.records.kinds.workshop import Instrument, Piece
from logbook.records.sizes.limits_held import held_text
from logbook.records.states.pieces import pieces_of, readings_of
from logbook.records.together.snapshot import Snapshot
from logbook.screens.ruled.moments import day
from logbook.screens.ruled.passage import Say
from logbook.screens.run.run_state import RunState
from logbook.screens.run.slot_history import undecided_at
from logbook.screens.run.slots import Slot

MOST = 12
"""Other pieces named, the newest first; no screen has room for more."""


def said_of_slot(run: RunState, snapshot: Snapshot, slot: Slot) -> tuple[Say, ...]:
    """Say it row by row."""
    return tuple(_said(run, snapshot, slot))


def _said(run: RunState, snapshot: Snapshot, slot: Slot) -> Iterator[Say]:
    at = f" at {slot.place}" if slot.place else ""
    yield Say("size", f"{slot.what}{at} of {slot.piece}")
    drawn = slot.drawn
    if drawn is None:
        yield Say("drawn", "a new size: no size and no limits are on record")
        return
    yield Say("drawn", held_text(drawn))
    for reading in run.taken(slot):
        yield Say("this run", _read(run, snapshot, slot, reading))
    part = snapshot.find(drawn.characteristic.part, Part)
    for piece in reversed(pieces_of(snapshot, part) if part else ()):
        if piece.title.casefold() == slot.piece.casefold():
            yield from _before(run, snapshot, slot, piece)
    fault = undecided_at(snapshot, slot)
    if fault is not None:
        yield Say("undecided", f"{fault.title}, of {day(fault.when)}")
    yield from _others(snapshot, slot, part)


def _read(run: RunState, snapshot: Snapshot, slot: Slot, reading: Reading) -> str:
    tool = snapshot.find(reading.instrument, Instrument)
    held = f", {reading.state}" if reading.state else ""
    by = f", {tool.title}" if tool else ""
    return f"{reading.value}{held}: {run.judged(slot, reading)}{by}"


def _before(
    run: RunState, snapshot: Snapshot, slot: Slot, piece: Piece
) -> Iterator[Say]:
    """Say what this place read before this run, newest first."""
    assert slot.drawn is not None
    here = {one.id for one in run.taken(slot)}
    taken = readings_of(snapshot, piece, slot.drawn.characteristic)
    found = [
        one.reading
        for one in reversed(taken)
        if one.reading.place == slot.place and one.reading.id not in here
    ]
    for at, reading in enumerate(found[:MOST]):
        when = f"{day(reading.at)}: " if reading.at else ""
        yield Say("" if at else "before", when + _read(run, snapshot, slot, reading))


def _others(snapshot: Snapshot, slot: Slot, part: Part | None) -> Iterator[Say]:
    """Say what the same place read last on other pieces."""
    assert slot.drawn is not None
    said = []
    for piece in reversed(pieces_of(snapshot, part) if part else ()):
        if piece.title.casefold() == slot.piece.casefold():
            continue
        taken = readings_of(snapshot, piece, slot.drawn.characteristic)
        values = [one.reading.value for one in taken if one.reading.place == slot.place]
        if values:
            of = f", {piece.build.name}" if piece.build else ""
            said.append(f"{values[-1]}  {piece.title}{of}")
        if len(said) == MOST:
            break
    for at, words in enumerate(said):
        yield Say("" if at else "others", words)
