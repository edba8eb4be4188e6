"""Which reading is off its drawing, and the deviation it leads to."""

from __future__ import annotations

from collections.abc import Iterable

from logbook.quantity import Absent, Quantity
from logbook.records.assembling import Fit
from logbook.records.definition import dimension
from logbook.records.design import Characteristic, Part
from logbook.records.happenings import Deviation, Reading
from logbook.records.ids import new_id
from logbook.records.limits_held import as_held
from logbook.records.making import Draft
from logbook.records.practice import is_practice
from logbook.records.revisions import current_revision
from logbook.records.words import Blame
from logbook.records.workshop import Piece


def deviation_of(
    draft: Draft, part: Part, piece: Piece, reading: Reading, blame: Blame
) -> Deviation:
    """Give the deviation a reading off its drawing leads to; it is not added yet."""
    item = draft.snapshot.find(reading.what, Characteristic)
    wanted = item.nominal if item else None
    at = f" at {reading.place}" if reading.place else ""
    should = f" should be {wanted}" if wanted else ""
    return Deviation(
        id=new_id(),
        title=f"{piece.title} {reading.what.name}{at} {reading.value}{should}",
        when=draft.when,
        build=draft.build().ref,
        piece=piece.ref,
        part=part.ref,
        characteristic=reading.what,
        wanted=wanted,
        found=reading.value if isinstance(reading.value, Quantity) else None,
        place=reading.place,
        met_by_others=blame,
    )


def off_drawing(
    draft: Draft, part: Part, readings: Iterable[Reading]
) -> tuple[Reading, Quantity] | None:
    """Give the first reading off the limits that hold of it, with the size as drawn.

    Not of a test piece that only a general tolerance holds: how far it is off is
    what it was made to tell.
    """
    if part.id not in draft.snapshot:
        return None
    revision = current_revision(draft.snapshot, part)
    for reading in readings:
        item = draft.snapshot.find(reading.what, Characteristic)
        drawn = dimension(draft.snapshot, revision, item) if item else None
        if drawn is None or drawn.nominal is None or isinstance(reading.value, Absent):
            continue
        if item and any(gap.made_last == item.ref for gap in draft.snapshot.all(Fit)):
            continue  # made to suit its gap: the drawn size is not what it is held to
        held = as_held(draft.snapshot, drawn)
        if held.general and is_practice(draft.snapshot, part):
            continue
        same = reading.value.dimension == drawn.nominal.dimension
        if same and held.verdict(reading.value) == "off drawing":
            return reading, drawn.nominal
    return None
