"""What a size of a piece read before this run, and what was made of it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from logbook.quantity import Absent
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Deviation, Reading, Run
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import disposition_of
from logbook.records.states.pieces import pieces_of, readings_of
from logbook.records.together.references import is_of
from logbook.records.together.snapshot import Snapshot
from logbook.screens.ruled.strip import place as place_in
from logbook.screens.run.slots import Slot, Subject, piece_of


def earlier(snapshot: Snapshot, slot: Slot) -> Reading | None:
    """Give what this size of this piece read before this run."""
    piece = next(iter(snapshot.named(slot.piece, Piece)), None)
    if piece is None or piece.title.casefold() != slot.piece.casefold():
        return None  # one that was called so formerly is another piece
    if slot.drawn is None:
        return None
    taken = readings_of(snapshot, piece, slot.drawn.characteristic)
    found = [one.reading for one in taken if one.reading.place == slot.place]
    return found[-1] if found else None


def had_words(snapshot: Snapshot, slot: Slot) -> str:
    """Say what this size read on the newest other piece of its part, and of which.

    Empty where none was read; another build's reading is no earlier one of this piece.
    """
    if slot.drawn is None:
        return ""
    part = snapshot.find(slot.drawn.characteristic.part, Part)
    for piece in reversed(pieces_of(snapshot, part) if part else ()):
        if piece.title.casefold() == slot.piece.casefold():
            continue
        taken = readings_of(snapshot, piece, slot.drawn.characteristic)
        found = [one.reading for one in taken if one.reading.place == slot.place]
        if found:
            of = f" ({piece.build.name})" if piece.build else ""
            return f"; {piece.title}{of} had {found[-1].value}"
    return ""


def most_doubtful_first(snapshot: Snapshot, slots: Sequence[Slot]) -> list[Slot]:
    """Order sizes by how near earlier pieces came to a limit; no limits come last."""
    return sorted(slots, key=lambda slot: _margin(snapshot, slot))


def _margin(snapshot: Snapshot, slot: Slot) -> Fraction:
    """Give the least distance to a limit on any piece, as a share of the field."""
    drawn, least = slot.drawn, Fraction(10)
    if drawn is None or drawn.lower is None or drawn.upper is None:
        return least
    for run in snapshot.mentions(drawn.characteristic):
        for reading in run.readings if isinstance(run, Run) else ():
            value = reading.value
            if isinstance(value, Absent) or not slot.takes(reading):
                continue
            if value.dimension == drawn.upper.dimension:
                share = place_in(drawn.lower, drawn.upper, value)
                least = min(least, share, 1 - share)
    return least


def undecided_at(snapshot: Snapshot, slot: Slot) -> Deviation | None:
    """Give the newest deviation of a size at its place that nobody has decided on."""
    if slot.drawn is None:
        return None
    for piece in snapshot.named(slot.piece, Piece)[:1]:
        for one in reversed(snapshot.mentions(slot.drawn.characteristic, Deviation)):
            its_own = one.piece is not None and is_of(one.piece, piece)
            if (
                its_own
                and one.place == slot.place
                and disposition_of(snapshot, one) is None
            ):
                return one
    return None


def deviation_on(
    snapshot: Snapshot, subject: Subject, reading: Reading
) -> Deviation | None:
    """Give the deviation that was logged from just this reading, if one was."""
    piece = piece_of(snapshot, subject)
    for one in reversed(snapshot.all(Deviation)):
        if (
            piece is not None
            and one.piece is not None
            and one.characteristic is not None
            and one.piece.id == piece.id
            and one.characteristic.name.casefold() == reading.what.name.casefold()
            and (one.place, one.found) == (reading.place, reading.value)
            and (reading.at is None or one.when >= reading.at)
        ):
            return one
    return None
