"""What the bench shows at a glance, worked out from a snapshot.

Everything here may take its time on a large project: it is called in a worker,
and the screen only shows what came of it.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from logbook.advice.advisor import Told
from logbook.advice.gaps.held_to_gap import held_to_gap, suited_word
from logbook.advice.ground.advice import Advice
from logbook.advice.pieces import again
from logbook.advice.steps.passing import WaitSort, sort_of
from logbook.advice.stops import rejected
from logbook.errors import Problem
from logbook.quantity import Absent, Quantity
from logbook.records.kinds import design, happenings, workshop
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Grade, Source, State
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.sizes.definition import Dimension, dimension
from logbook.records.sizes.limits_held import as_held, held_text
from logbook.records.sizes.verdict_word import judged
from logbook.records.states.dispositions import undisposed
from logbook.records.states.pieces import current_build, piece_state, readings_of
from logbook.records.together.references import part_of
from logbook.records.together.refs_held import refs_in
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.interleaved import revisions_in

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
    def open_ones(self) -> tuple[Ref, ...]:
        """Give what nobody has decided on: what stops a release, and nothing else."""
        return (*self.faults, *self.rejected)

    @property
    def undecided(self) -> tuple[str, ...]:
        """Name what nobody has decided on."""
        return tuple(ref.name for ref in self.open_ones)


def glance(snapshot: Snapshot, build: Build | None = None) -> Glance:
    """Look a project over for one build, the current one if none is named."""
    build = build or current_build(snapshot)
    entries = entries_of(snapshot, build)
    where, when = _where(snapshot, build, entries)
    return Glance(
        read=True,
        build=build,
        builds=snapshot.all(Build),
        title=snapshot.project.title,
        where=where,
        where_when=when,
        faults=tuple(fault.ref for fault in undisposed(snapshot)),
        bare=tuple(_bare(snapshot, build)),
        problems=len(snapshot.problems),
        first_problem=_first(snapshot.problems),
        last=last_value(snapshot, entries),
    )


def _first(problems: Sequence[Problem]) -> str:
    """Say the problem to mend first: a conflict is what makes most of the others.

    What is wrong comes before the file it is in, since a low screen cuts the end.
    """
    ordered = sorted(problems, key=lambda one: one.found != "a merge conflict")
    for one in ordered[:1]:
        field = f"{one.field}: " if one.field else ""
        where = f"{one.file}:{one.line}" if one.line else one.file
        return f"{field}{one.found}; accepted: {one.accepted} · in {where}"
    return ""


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


def _where(
    snapshot: Snapshot, build: Build | None, entries: Sequence[Entry]
) -> tuple[str, str]:
    if not entries and build is not None:
        begun = f"{build.title} begun {build.when.astimezone():%-d %b}"
        return f"{begun}, nothing on record yet", ""
    if not entries:
        return "", ""
    last: Record = entries[-1]
    revised = revisions_in(snapshot, build)
    if revised and revised[-1].when > last.when:
        last = revised[-1]
    part = part_of(snapshot, last)
    named = part is None or part.title.casefold() in last.title.casefold()
    said = last.title if named or part is None else f"{part.title} · {last.title}"
    return said, f"{last.when.astimezone():%d %b %H:%M}"


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
    return piece is None or build is None or _in(piece, build)


def _bare(snapshot: Snapshot, build: Build | None) -> Iterator[str]:
    """Name the parts and pieces nothing is on record against.

    What is bought is counted: most of it never has anything to be said about.
    """
    bought, pieces = 0, _pieces(snapshot)
    for part in snapshot.all(Part):
        own = pieces.get(part.id, {}).values()
        here = [p for p in own if build is None or _in(p, build)]
        if not here and not _entered(snapshot, part, build):
            if part.source is Source.BOUGHT:
                bought += 1
            else:
                yield part.title
        for piece in here:
            if not _entered(snapshot, piece, build):
                yield piece.title
    if bought:
        yield f"{bought} bought"


def _pieces(snapshot: Snapshot) -> Mapping[str, Mapping[str, Piece]]:
    """Give the pieces that mention each part; few beside all that mention it."""
    found: dict[str, dict[str, Piece]] = defaultdict(dict)
    for piece in snapshot.all(Piece):
        for ref in refs_in(piece):
            part = snapshot.find(ref, Part)
            if part is not None:
                found[part.id][piece.id] = piece
    return found


def _in(piece: Piece, build: Build) -> bool:
    return piece.build is None or piece.build.id == build.id


def _entered(snapshot: Snapshot, record: Record, build: Build | None) -> bool:
    return any(
        isinstance(entry, Entry)
        and (build is None or entry.build is None or entry.build.id == build.id)
        for entry in snapshot.mentions(record)
    )


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
        if build is not None and not _in(piece, build):
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
