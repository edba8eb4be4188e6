"""Which reading is off its drawing, and the deviation it leads to."""

from __future__ import annotations

from collections.abc import Iterable

from logbook.quantity import Absent, Quantity
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.happenings import Deviation, Reading
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Blame
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.sizes.definition import OFF_DRAWING, WITHIN, dimension
from logbook.records.sizes.limits_held import as_held
from logbook.records.states.practice import is_practice
from logbook.records.together.revisions import (
    made_to,
    revisions_of,
    shown_label,
)


def deviation_of(
    draft: Draft, part: Part, piece: Piece, reading: Reading, blame: Blame
) -> Deviation:
    """Give the deviation a reading off its drawing leads to; it is not added yet."""
    item = draft.snapshot.find(reading.what, Characteristic)
    revision = made_to(draft.snapshot, part, piece)
    wanted = dimension(draft.snapshot, revision, item).nominal if item else None
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
    draft: Draft, part: Part, piece: Piece | None, readings: Iterable[Reading]
) -> tuple[Reading, Quantity] | None:
    """Give the first reading off the limits that hold of it, with the size as drawn.

    A piece is held to the revision it was made to, and not to one that came later.
    Not of a test piece that only a general tolerance holds: how far it is off is
    what it was made to tell.
    """
    if part.id not in draft.snapshot:
        return None
    revision = made_to(draft.snapshot, part, piece)
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
        if same and held.verdict(reading.value) == OFF_DRAWING:
            return reading, drawn.nominal
    return None


def drawn_by_now(
    draft: Draft, reading: Reading, wanted: Quantity, piece: Piece | None
) -> str:
    """Say that a reading is what the drawing says by now; empty where it is not.

    So it is where an earlier revision drew what was wanted, and that of the piece
    draws what was read: the deviation is the change that was made already.
    """
    item = draft.snapshot.find(reading.what, Characteristic)
    revision = draft.snapshot.find(piece.revision, Revision) if piece else None
    if item is None or revision is None or isinstance(reading.value, Absent):
        return ""
    drawn = dimension(draft.snapshot, revision, item)
    part = draft.snapshot.find(item.part, Part)
    earlier = (
        dimension(draft.snapshot, one, item).nominal
        for one in (revisions_of(draft.snapshot, part) if part else ())
        if one.id != revision.id
    )
    size, value = drawn.nominal, reading.value
    if size is None or not any(_same(one, wanted) for one in (item.nominal, *earlier)):
        return ""
    if _same(size, wanted) or size.dimension != value.dimension or value.metal:
        return ""
    held = as_held(draft.snapshot, drawn)
    within = held.verdict(value) == WITHIN if held.has_limits else _same(size, value)
    if not within:
        return ""
    label = shown_label(revision)
    return f"{label} draws {item.title} {size} already: no deviation of it"


def _same(one: Quantity | None, other: Quantity) -> bool:
    if one is None or one.metal or other.metal or one.dimension != other.dimension:
        return False
    return one.to(other.unit) == other.value
