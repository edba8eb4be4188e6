"""What the records add up to: current revisions, definitions, states, readings.

Nothing here is stored; each answer follows from the entries by instant and id.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from logbook.errors import BadInput
from logbook.quantity import Absent, Quantity, quantity
from logbook.records import design, made_public, workshop
from logbook.records.design import Characteristic, Part, Revision
from logbook.records.happenings import (
    Deviation,
    Disposal,
    Failure,
    Reading,
    Run,
    Status,
)
from logbook.records.ids import Ref
from logbook.records.labels import ORIGINAL
from logbook.records.likeness import alike
from logbook.records.record import Record
from logbook.records.snapshot import Snapshot
from logbook.records.words import Blame, Disposition, State
from logbook.records.workshop import Piece


@dataclass(frozen=True, slots=True)
class Dimension:
    """A characteristic as one revision defines it, its limits as quantities.

    One made `to_suit` a gap has no size of its own. `general` names the general
    tolerance its limits are by, where the drawing gives none on the size itself.
    """

    characteristic: Characteristic
    nominal: Quantity | None
    lower: Quantity | None
    upper: Quantity | None
    to_suit: bool = False
    general: str = ""

    @property
    def has_limits(self) -> bool:
        """Tell whether there is a limit on either side."""
        return self.lower is not None or self.upper is not None

    @property
    def limits_by(self) -> str:
        """Name the general tolerance the limits are by; empty if they are drawn."""
        named = self.characteristic.limits_from if self.has_limits else ""
        return self.general or named

    @property
    def name(self) -> str:
        """Give the name of the characteristic."""
        return self.characteristic.title

    def verdict(self, value: Quantity) -> str:
        """Say in shop words where a value stands: in, off drawing, no limits drawn."""
        if not self.has_limits:
            return "no limits drawn"
        low = self.lower is None or value.to(self.lower.unit) >= self.lower.value
        high = self.upper is None or value.to(self.upper.unit) <= self.upper.value
        return "in" if low and high else "off drawing"


_LEADS_TO_PART = (
    "part", "piece", "revision", "characteristic", "of", "makes", "opens",
)  # fmt: skip


def part_of(snapshot: Snapshot, record: Record) -> Part | None:
    """Give the part a record is about, through its piece or revision if need be.

    What it is `about` comes last. References that go round in a circle end.
    """
    seen: set[str] = set()
    waiting = [record]
    while waiting:
        here = waiting.pop(0)
        if isinstance(here, Part):
            return here
        if here.id in seen:
            continue
        seen.add(here.id)
        refs = [getattr(here, name, None) for name in _LEADS_TO_PART]
        found = (snapshot.find(ref) for ref in (*refs, *getattr(here, "about", ())))
        waiting = [*(target for target in found if target is not None), *waiting]
    return None


def refers(snapshot: Snapshot, ref: Ref | None, record: Record) -> bool:
    """Tell whether a reference leads to a record of the snapshot."""
    if ref is not None and ref.id:
        return ref.id == record.id
    return snapshot.find(ref) is record


def revisions_of(snapshot: Snapshot, part: Part) -> tuple[Revision, ...]:
    """Give the revisions of a part, oldest first.

    Of one instant, as when a logbook is started, each comes after the one it follows.
    """
    mentioned = snapshot.mentions(part, Revision)
    own = {r.id: r for r in mentioned if refers(snapshot, r.part, part)}

    def steps(revision: Revision) -> int:
        passed: set[str] = set()
        while revision.follows and revision.follows.id in own.keys() - passed:
            passed.add(revision.follows.id)
            revision = own[revision.follows.id]
        return len(passed)

    return tuple(sorted(own.values(), key=lambda r: (r.when, steps(r), r.id)))


def current_revision(snapshot: Snapshot, part: Part) -> Revision | None:
    """Give the newest revision that was not withdrawn."""
    for revision in reversed(revisions_of(snapshot, part)):
        if not is_withdrawn(snapshot, revision):
            return revision
    return None


def is_withdrawn(snapshot: Snapshot, record: Record) -> bool:
    """Tell whether the last word on a revision or a step is that it was withdrawn."""
    said = snapshot.mentions(record, Status)
    last = [s.state for s in said if refers(snapshot, s.of, record)]
    return bool(last) and last[-1] is State.WITHDRAWN


def verdict_of(snapshot: Snapshot, revision: Revision) -> str:
    """Say tried, untried or withdrawn; tried means a piece of it was made and held.

    One that is not here, was scrapped, or failed by the drawing or for no known
    reason, tells nothing in its favour. Nor does one that failed, whoever's fault it
    was, as what the revision is to cure did.
    """
    if is_withdrawn(snapshot, revision):
        return "withdrawn"
    pieces = snapshot.mentions(revision, Piece)
    own = (piece for piece in pieces if snapshot.find(piece.revision) is revision)
    held = any(held_up(snapshot, piece, revision) for piece in own)
    return "tried" if held else "untried"


_TELLS_NOTHING = {State.ORDERED, State.SENT_OUT, State.SCRAPPED}


def held_up(snapshot: Snapshot, piece: Piece, revision: Revision) -> bool:
    """Tell whether a piece speaks for its revision: it is here and did not fail."""
    if piece_state(snapshot, piece) in _TELLS_NOTHING:
        return False
    return not any(
        snapshot.find(failure.piece) is piece
        and (
            failure.met_by_others in {Blame.DRAWING, Blame.UNKNOWN}
            or _as_before(snapshot, failure, revision)
        )
        for failure in snapshot.mentions(piece, Failure)
    )


def _as_before(snapshot: Snapshot, failure: Failure, revision: Revision) -> bool:
    """Tell whether a piece failed as what its revision is to cure did."""
    cured = (snapshot.find(ref) for ref in revision.because)
    return any(
        isinstance(one, Failure)
        and alike(one.title, failure.title, but=(revision.part.name,))
        for one in cured
    )


def revisions_in(
    snapshot: Snapshot, release: made_public.Release
) -> tuple[Revision, ...]:
    """Give the revisions of a release that are still on record."""
    found = (snapshot.find(ref, Revision) for ref in release.revisions)
    return tuple(revision for revision in found if revision is not None)


def shown_label(revision: Revision) -> str:
    """Give a revision's label as said on screen."""
    return "first issue" if revision.label == ORIGINAL else f"rev {revision.label}"


def characteristics_of(snapshot: Snapshot, part: Part) -> tuple[Characteristic, ...]:
    """Give the characteristics of a part, of whatever revision, oldest first."""
    mentioned = snapshot.mentions(part, Characteristic)
    return tuple(c for c in mentioned if refers(snapshot, c.part, part))


def definition(snapshot: Snapshot, revision: Revision) -> tuple[Dimension, ...]:
    """Give the dimensions a revision defines, changes of earlier ones included."""
    part = snapshot.find(revision.part, Part)
    if part is None:
        return ()
    line = []
    for one in revisions_of(snapshot, part):
        line.append(one)
        if one is revision:
            break
    reached = {one.id for one in line}
    made: dict[str, Dimension] = {}
    for item in characteristics_of(snapshot, part):
        since = snapshot.find(item.since, Revision)
        if since is None or since.id in reached:
            made[item.id] = Dimension(
                item, item.nominal, item.lower_limit, item.upper_limit
            )
    for one in line:
        for change in one.changes:
            _apply(snapshot, change, made)
    return tuple(made.values())


def _apply(
    snapshot: Snapshot, change: design.Change, made: dict[str, Dimension]
) -> None:
    target = snapshot.find(change.characteristic, Characteristic)
    if target is None or target.id not in made:
        return
    if change.withdrawn:
        del made[target.id]
        return
    if change.to_suit:
        made[target.id] = Dimension(target, None, None, None, to_suit=True)
        return
    before = made[target.id]
    made[target.id] = Dimension(
        target,
        change.becomes or before.nominal,
        change.lower_limit or _moved(before.lower, before.nominal, change.becomes),
        change.upper_limit or _moved(before.upper, before.nominal, change.becomes),
    )


def _moved(
    limit: Quantity | None, was: Quantity | None, becomes: Quantity | None
) -> Quantity | None:
    """Give a limit moved along with its nominal: the tolerance stays what it was.

    Where the sizes are of different kinds, which is told as a problem, it stays.
    """
    if limit is None or was is None or becomes is None:
        return limit
    try:
        by = becomes.to(limit.unit) - was.to(limit.unit)
    except BadInput:
        return limit
    return quantity(limit.value + by, limit.unit, min(limit.step, becomes.step))


def dimension(
    snapshot: Snapshot, revision: Revision | None, characteristic: Characteristic
) -> Dimension:
    """Give one characteristic as a revision defines it."""
    if revision is not None:
        for found in definition(snapshot, revision):
            if found.characteristic.id == characteristic.id:
                return found
    c = characteristic
    return Dimension(c, c.nominal, c.lower_limit, c.upper_limit)


def pieces_of(snapshot: Snapshot, part: Part) -> tuple[Piece, ...]:
    """Give the pieces of a part, oldest first."""
    mentioned = snapshot.mentions(part, Piece)
    return tuple(p for p in mentioned if refers(snapshot, p.part, part))


_DISPOSED = {
    Disposition.SCRAP: State.SCRAPPED,
    Disposition.RETURN: State.SENT_OUT,
    Disposition.REWORK: State.REWORKED,
    Disposition.REPAIR: State.REWORKED,
}


def piece_state(snapshot: Snapshot, piece: Piece) -> State:
    """Work out the state of a piece from its entries; a piece on record is made."""
    state = State.MADE
    for record in snapshot.mentions(piece, Status, Disposal, Failure, Deviation):
        if isinstance(record, Status) and snapshot.find(record.of) is piece:
            state = record.state
        elif (
            isinstance(record, Disposal | Failure | Deviation)
            and record.disposition
            and snapshot.find(record.piece) is piece
        ):
            state = _DISPOSED.get(record.disposition, state)
    return state


@dataclass(frozen=True, slots=True)
class Taken:
    """A reading with the run it belongs to."""

    reading: Reading
    run: Run

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
        if snapshot.find(run.piece) is not piece:
            continue
        for reading in run.readings:
            if characteristic is None or is_of(reading.what, characteristic):
                yield Taken(reading, run)


def is_of(ref: Ref, record: Record) -> bool:
    """Tell whether a reference means this record, by id or, without one, by name."""
    if ref.id:
        return ref.id == record.id
    names = {record.title.casefold(), *(name.casefold() for name in record.formerly)}
    return ref.name.casefold() in names


def current_build(snapshot: Snapshot) -> workshop.Build | None:
    """Give the build the last entry belongs to, else the newest build."""
    builds = snapshot.all(workshop.Build)
    for entry in reversed(snapshot.entries if builds else ()):
        found = snapshot.find(entry.build, workshop.Build)
        if found is not None:
            return builds[-1] if builds[-1].when > entry.when else found
    return builds[-1] if builds else None


def undisposed(snapshot: Snapshot) -> tuple[Deviation | Failure, ...]:
    """Give the deviations and failures nobody has decided on yet.

    What is done with a piece decides on every fault it had by then, whether or not
    it names one.
    """
    disposals = snapshot.all(Disposal)
    answered = {
        found.id
        for disposal in disposals
        if (found := snapshot.find(disposal.answers)) is not None
    }
    faults: tuple[Deviation | Failure, ...] = (
        *snapshot.all(Deviation),
        *snapshot.all(Failure),
    )
    done = _last_done(snapshot, disposals)
    return tuple(
        fault
        for fault in faults
        if fault.disposition is None
        and fault.id not in answered
        and not (done and _settled(snapshot, fault, done))
    )


def _last_done(
    snapshot: Snapshot, disposals: Iterable[Disposal]
) -> dict[str, datetime]:
    """Give when something was last done with each piece that names no fault."""
    found: dict[str, datetime] = {}
    for disposal in disposals:
        piece = snapshot.find(disposal.piece, Piece)
        if piece is not None and not disposal.answers:
            found[piece.id] = max(disposal.when, found.get(piece.id, disposal.when))
    return found


def _settled(
    snapshot: Snapshot, fault: Deviation | Failure, done: Mapping[str, datetime]
) -> bool:
    """Tell whether something was done with its piece at that moment or later."""
    piece = snapshot.find(fault.piece, Piece)
    last = done.get(piece.id) if piece is not None else None
    return last is not None and last >= fault.when


def unanswered(snapshot: Snapshot) -> tuple[Deviation | Failure, ...]:
    """Give the deviations and failures not known to be met by others, or not."""
    faults: tuple[Deviation | Failure, ...] = (
        *snapshot.all(Deviation),
        *snapshot.all(Failure),
    )
    return tuple(fault for fault in faults if fault.met_by_others is Blame.UNKNOWN)


def drawn_text(drawn: Dimension) -> str:
    """Give nominal and limits as drawn, or say that there are none."""
    if drawn.to_suit:
        return "made to suit"
    if drawn.nominal is None:
        return "no size drawn"
    if drawn.lower is None and drawn.upper is None:
        return f"{drawn.nominal}, no limits drawn"
    return f"{drawn.nominal} ({drawn.lower or '…'} to {drawn.upper or '…'})"
