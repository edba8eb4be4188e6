"""The sizes a measuring run walks through, and what a value typed at one may be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Reading
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.sizes.definition import Dimension, definition
from logbook.records.sizes.expected import expected_of, must_suit
from logbook.records.sizes.limits_held import as_held
from logbook.records.sizes.places import places_of
from logbook.records.sizes.slips import Slip, doubt_of
from logbook.records.together.references import is_of
from logbook.records.together.revisions import made_to
from logbook.records.together.snapshot import Snapshot
from logbook.screens.run.typed_reading import Known, Typed


@dataclass(frozen=True, slots=True)
class Slot:
    """A size at a place of a piece, with the limits that hold of it.

    `drawn` is None while the size is new.
    """

    piece: str
    what: str
    place: str = ""
    drawn: Dimension | None = None

    @property
    def where(self) -> tuple[str, str, str]:
        """What the size at its place is known by."""
        return self.piece, self.what.casefold(), self.place

    @property
    def named(self) -> str:
        """What it is called among all sizes of a run: its piece, itself, its place."""
        return " · ".join(filter(None, (self.piece, self.what, self.place)))

    def takes(self, reading: Reading) -> bool:
        """Tell whether a reading belongs here."""
        if reading.place != self.place:
            return False
        if self.drawn is not None:
            return is_of(reading.what, self.drawn.characteristic)
        return reading.what.name.casefold() == self.what.casefold()


@dataclass(frozen=True, slots=True)
class Subject:
    """What is measured: a piece by its part's name and its number, new or known."""

    part: str
    number: int | None = None
    title: str = ""


def piece_of(snapshot: Snapshot, subject: Subject) -> Piece | None:
    """Give the piece that is measured, once it is on record."""
    for piece in snapshot.named(subject.title, Piece) if subject.title else ():
        return piece
    return None


def slots_of(
    snapshot: Snapshot, subject: Subject, build: Build | None = None
) -> Iterator[Slot]:
    """Give the sizes of a piece in drawing order, each at each of its places.

    A piece not on record yet has those of the revision its build is made to.
    """
    piece = piece_of(snapshot, subject)
    for part in snapshot.named(subject.part, Part)[:1]:
        revision = made_to(snapshot, part, piece, build)
        for drawn in definition(snapshot, revision) if revision else ():
            held = as_held(snapshot, drawn)
            for place in places_of(snapshot, drawn.characteristic):
                yield Slot(subject.title, drawn.name, place, held)


# -- what is typed at one ---------------------------------------------------------


def known_at(slots: Sequence[Slot], slot: Slot | None, unit: str) -> Known:
    """Give what is known where the run stands, for reading what is typed there."""
    here = [one for one in slots if slot is not None and one.what == slot.what]
    return Known(
        unit_of(slot, unit),
        frozenset(one.what for one in slots),
        frozenset(one.place for one in here if one.place),
        _called(slots),
        at_size=slot is not None,
    )


def _called(slots: Sequence[Slot]) -> frozenset[str]:
    """Give what the piece that is measured is called, and its part."""
    parts = {one.drawn.characteristic.part.name for one in slots if one.drawn}
    return frozenset({one.piece for one in slots} | parts)


def unit_of(slot: Slot | None, unit: str) -> str:
    """Give the unit a number is in that is typed without one."""
    nominal = slot.drawn.nominal if slot is not None and slot.drawn else None
    return nominal.unit if nominal is not None and not nominal.metal else unit


def unit_read(snapshot: Snapshot, slot: Slot | None) -> str:
    """Give the unit of a bare number where no nominal gives it: the project's.

    A size that was read as something else before, as a temperature, keeps its own.
    """
    own = snapshot.project.unit
    known = expected_of(snapshot, slot.drawn) if slot and slot.drawn else None
    if known is None or known.size.metal:
        return own
    other = known.size.dimension != parse_quantity("1", own).dimension
    return known.size.unit if other else own


def checked(snapshot: Snapshot, typed: Typed, slot: Slot) -> None:
    """Refuse a value that cannot be of this size.

    Raises:
        BadInput: it measures something else, or is negative where none can be.
    """
    if slot.drawn is not None and typed.value is not None:
        must_suit(typed.value, expected_of(snapshot, slot.drawn))


def slip_at(snapshot: Snapshot, typed: Typed, slot: Slot) -> Slip | None:
    """Give the slip a typed reading looks like, unless it was said to be so."""
    if slot.drawn is None or typed.value is None or typed.confirmed:
        return None
    return doubt_of(snapshot, slot.drawn, typed.value)


def live_value(text: str, slot: Slot | None, unit: str) -> Quantity | None:
    """Give the number being typed, as far as it is one already."""
    words = text.split()
    for at in range(len(words)):
        try:
            return parse_quantity(" ".join(words[at:]), unit_of(slot, unit))
        except BadInput:
            continue
    return None
