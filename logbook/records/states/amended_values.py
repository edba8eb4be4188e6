"""Values that a record on record comes to by being amended, held to their sizes.

A number put right is typed like any other: the same slips are seen in it, and the same
answers settle it. What the reading said before is no measure of it; it was wrong.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from logbook.quantity import Absent, Quantity
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Deviation, Reading, Run
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.sizes.definition import dimension
from logbook.records.sizes.limits_held import as_held
from logbook.records.sizes.slips import Slip, doubt_of
from logbook.records.states.read_now import reading_behind
from logbook.records.together.revisions import made_to
from logbook.records.together.snapshot import Snapshot, Stored
from logbook.records.together.succession import with_records

Change = tuple[Record, Record]
"""A record as it is, and as it is to be."""


@dataclass(frozen=True, slots=True)
class AmendedSlip:
    """A slip among the values that are amended, and where it stands: in which reading.

    `reading` is empty where it is what a deviation found.
    """

    slip: Slip
    reading: str = ""

    def as_meant(self, record: Record) -> Record:
        """Give the record with what was meant in place of the slip."""
        meant = self.slip.meant
        if meant is None:
            return record
        if isinstance(record, Deviation):
            return replace(record, found=meant)
        if isinstance(record, Run):
            rows = (
                replace(one, value=meant) if one.id == self.reading else one
                for one in record.readings
            )
            return replace(record, readings=tuple(rows))
        return record


def slip_amended(
    snapshot: Snapshot, before: Record, after: Record
) -> AmendedSlip | None:
    """Give the first value of a change that looks like a slip; None where none does."""
    found = (
        AmendedSlip(slip, where)
        for what, value, where in _fresh_values(before, after)
        if (slip := _doubt(snapshot, before, after, what, value)) is not None
    )
    return next(found, None)


def said_to_be_so(
    changes: tuple[Change, ...],
    sure: bool,  # noqa: FBT001
) -> tuple[Change, ...]:
    """Give changes in which each value that is another was said to be so, or was not.

    What was said of a value does not hold of the one that takes its place.
    """
    return tuple((was, _confirmed(was, now, sure)) for was, now in changes)


def _confirmed(was: Record, now: Record, sure: bool) -> Record:  # noqa: FBT001
    if not isinstance(was, Run) or not isinstance(now, Run):
        return now
    old = {one.id: one.value for one in was.readings}
    rows = tuple(
        one if one.value == old.get(one.id, one.value) else replace(one, confirmed=sure)
        for one in now.readings
    )
    return now if rows == now.readings else replace(now, readings=rows)


def _fresh_values(
    before: Record, after: Record
) -> Iterator[tuple[Ref, Quantity | Absent, str]]:
    """Give the size, the value and the reading of each value that is another now."""
    if isinstance(before, Deviation) and isinstance(after, Deviation):
        was, now = (before.characteristic, before.found), after.characteristic
        if now and after.found and (now, after.found) != was:
            yield now, after.found, ""
    elif isinstance(before, Run) and isinstance(after, Run):
        old = {one.id: (one.value, one.what) for one in before.readings}
        for one in after.readings:
            if (one.value, one.what) != old.get(one.id):
                yield one.what, one.value, one.id


def _doubt(
    snapshot: Snapshot,
    before: Record,
    after: Record,
    what: Ref,
    value: Quantity | Absent,
) -> Slip | None:
    item = snapshot.find(what, Characteristic)
    part = snapshot.find(item.part, Part) if item else None
    if item is None or part is None or not isinstance(after, Run | Deviation):
        return None
    piece = snapshot.find(after.piece, Piece)
    build = snapshot.find(after.build, Build)
    drawn = as_held(
        snapshot, dimension(snapshot, made_to(snapshot, part, piece, build), item)
    )
    return doubt_of(_without(snapshot, before), drawn, value)


def _without(snapshot: Snapshot, before: Record) -> Snapshot:
    """Give the records without the readings that are put right."""
    run: Run | None = before if isinstance(before, Run) else None
    gone: tuple[Reading, ...] = run.readings if run else ()
    if isinstance(before, Deviation) and (behind := reading_behind(snapshot, before)):
        run, gone = behind[0], (behind[1],)
    if run is None:
        return snapshot
    left = replace(run, readings=tuple(one for one in run.readings if one not in gone))
    mark = f"without {', '.join(one.id for one in gone)}"
    return with_records(snapshot, [Stored(left, snapshot.path(run), mark)])
