"""What the bench shows at a glance, worked out from a snapshot.

Everything here may take its time on a large project: it is called in a worker,
and the screen only shows what came of it.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import islice

from logbook.advice.advisor import Told
from logbook.advice.gaps.held_to_gap import held_to_gap, suited_word
from logbook.advice.ground.advice import Advice
from logbook.advice.pieces import again
from logbook.advice.steps.passing import WaitSort, sort_of
from logbook.advice.stops import rejected
from logbook.quantity import Absent, Quantity
from logbook.records.kinds import design, happenings, workshop
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Grade, State
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.sizes.definition import Dimension, dimension
from logbook.records.sizes.limits_held import as_held, held_text
from logbook.records.sizes.verdict_word import judged
from logbook.records.states.pieces import piece_state, readings_of
from logbook.records.together.references import part_of
from logbook.records.together.sharing import Joined
from logbook.records.together.snapshot import Snapshot

GONE = {State.SCRAPPED, State.TAKEN_OUT, State.SENT_OUT}


@dataclass(frozen=True, slots=True)
class LastValue:
    """The reading taken last: what of, its figures, how it was drawn, its verdict.

    `doubt` is the uncertainty of the instrument, `held` the size with its limits.
    """

    owner: str
    what: str
    value: Quantity
    drawn: str
    verdict: str
    doubt: Quantity | None = None
    held: Dimension | None = None
    piece: Piece | None = None


@dataclass(frozen=True, slots=True)
class Wait:
    """Something not to do yet: `hold` is what an override names, and why it waits.

    `sort` tells which reasons to go past it fit.
    """

    hold: str
    words: str
    step: Ref | None = None
    sort: WaitSort = WaitSort.HOLD

    @property
    def short(self) -> str:
        """What waits and for what; the gap it is for is not named in front."""
        head, _, rest = self.words.partition(": ")
        led = head == self.hold or head.startswith(f"{self.hold}, ")
        return rest if rest and led and self.sort is WaitSort.GAP else self.words


@dataclass(frozen=True, slots=True)
class Glance:
    """Everything the first screen says besides the entries.

    `read` tells that the records were looked at: before that nothing is known.
    `rejected` is named by the advice, as `waits` is: what is off its drawing.
    """

    read: bool = False
    build: Build | None = None
    builds: Sequence[Build] = ()
    title: str = ""
    where: str = ""
    where_when: str = ""
    waits: tuple[Wait, ...] = ()
    faults: tuple[Ref, ...] = ()
    rejected: tuple[Ref, ...] = ()
    bare: tuple[str, ...] = ()
    problems: int = 0
    first_problem: str = ""
    last: LastValue | None = None

    @property
    def open_ones(self) -> Sequence[Ref]:
        """Give what nobody has decided on: what stops a release, and nothing else."""
        return Joined(self.faults, self.rejected)

    def undecided(self, most: int) -> tuple[str, ...]:
        """Name what nobody has decided on, so many of it at most."""
        return tuple(ref.name for ref in islice(self.open_ones, most))


def entries_of(snapshot: Snapshot, build: Build | None) -> Sequence[Entry]:
    """Give the entries of a build, oldest first; all where there is no build.

    One that names no build is of those that were begun by then.
    """
    if build is None:
        return snapshot.entries
    own = snapshot.parted(build.id)[0]
    # Of those of no build few are older than it: from where it begins on all are its.
    begun = bisect_left(own, build.when, key=lambda one: one.when)
    if all(one.build is not None for one in own[:begun]):
        return own
    return (*(one for one in own[:begun] if one.build is not None), *own[begun:])


def arranged(
    snapshot: Snapshot, build: Build | None
) -> tuple[Sequence[Entry], Sequence[Entry]]:
    """Give the entries of a build, and those before them: of all others, by time."""
    here = entries_of(snapshot, build)
    if build is None:
        return here, ()
    own, others = snapshot.parted(build.id)
    if len(own) == len(here):
        return here, others
    kept = {one.id for one in here}
    return here, [one for one in snapshot.entries if one.id not in kept]


def rejected_of(told: Told) -> tuple[Ref, ...]:
    """Give the pieces off their drawing and undecided, each named by what is so."""
    return tuple(Ref(one.statement, one.about.id) for one in rejected(told.advice))


def waits_of(
    told: Told, snapshot: Snapshot, build: Build | None = None
) -> tuple[Wait, ...]:
    """Give what waits and what is to be checked first, the strongest first.

    A piece of another build does not wait in this one.
    """
    return tuple(
        Wait(
            one.about.name,
            one.statement if _told_by_itself(one) else f"check: {one.statement}",
            one.step,
            sort_of(one),
        )
        for one in told.open
        if _here(snapshot.find(one.about, Piece), build)
    )


def _told_by_itself(one: Advice) -> bool:
    """Tell whether advice says what is to be done, and not only what to look at."""
    return one.grade is Grade.WAIT or one.topic == again.TOPIC


def _here(piece: Piece | None, build: Build | None) -> bool:
    return piece is None or build is None or is_in(piece, build)


def is_in(piece: Piece, build: Build) -> bool:
    """Tell whether a piece is of a build, or of none."""
    return piece.build is None or piece.build.id == build.id


# -- readings --------------------------------------------------------------------


def last_value(snapshot: Snapshot, entries: Sequence[Entry]) -> LastValue | None:
    """Give the last reading that has a value."""
    for entry in reversed(entries):
        if not isinstance(entry, happenings.Run):
            continue
        for reading in reversed(entry.readings):
            if not isinstance(reading.value, Absent):
                return _told(snapshot, entry, reading)
    return None


def _told(
    snapshot: Snapshot, run: happenings.Run, reading: happenings.Reading
) -> LastValue:
    assert isinstance(reading.value, Quantity)
    part = part_of(snapshot, run)
    piece = snapshot.find(run.piece, Piece)
    drawn = drawn_for(snapshot, piece, reading.what)
    at = f" at {reading.place}" if reading.place else ""
    doubt = uncertainty(snapshot, run, reading)
    return LastValue(
        owner=piece.title if piece else part.title if part else "",
        what=f"{reading.what.name}{at}",
        value=reading.value,
        drawn=held_text(drawn) if drawn else "",
        verdict=suited_word(drawn, judged(drawn, reading.value, doubt)),
        doubt=doubt,
        held=drawn,
        piece=piece,
    )


def suited_last(
    told: Told, snapshot: Snapshot, build: Build | None, last: LastValue | None
) -> LastValue | None:
    """Give the last reading held to its gap, where its size was made to suit one."""
    if last is None or last.held is None:
        return last
    held = held_to_gap(snapshot, told.advice, last.held, last.piece, build)
    if held is last.held:
        return last
    return replace(
        last,
        drawn=f"made to suit, {held.lower} to {held.upper}",
        verdict=suited_word(held, judged(held, last.value, last.doubt)),
    )


def drawn_for(
    snapshot: Snapshot, piece: Piece | None, what: object
) -> Dimension | None:
    """Give a dimension as the piece's own revision draws it, as far as it holds."""
    item = snapshot.find(what, design.Characteristic)  # type: ignore[call-overload]
    if item is None:
        return None
    revision = snapshot.find(piece.revision, design.Revision) if piece else None
    return as_held(snapshot, dimension(snapshot, revision, item))


def uncertainty(
    snapshot: Snapshot, run: happenings.Run, reading: happenings.Reading
) -> Quantity | None:
    """Give the expanded uncertainty of the instrument of a reading, if known."""
    with_what = reading.instrument or run.instrument
    instrument = snapshot.find(with_what, workshop.Instrument)
    return instrument.uncertainty if instrument else None


def pieces_here(snapshot: Snapshot, build: Build | None) -> tuple[Piece, ...]:
    """Give the pieces of a build that are still there, newest first."""
    found = []
    for piece in reversed(snapshot.all(Piece)):
        if build is not None and not is_in(piece, build):
            continue
        if piece_state(snapshot, piece) not in GONE:
            found.append(piece)
    return tuple(found)


def last_reading(
    snapshot: Snapshot, piece: Piece, item: design.Characteristic, place: str
) -> happenings.Reading | None:
    """Give the newest reading of a dimension of a piece at a place."""
    for taken in reversed(readings_of(snapshot, piece, item)):
        if taken.reading.place == place:
            return taken.reading
    return None
