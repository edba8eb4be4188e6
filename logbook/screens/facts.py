"""What the bench shows at a glance, worked out from a snapshot.

Everything here may take its time on a large project: it is called in a worker,
and the screen only shows what came of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from logbook.advice.advisor import Told
from logbook.errors import Problem
from logbook.quantity import Absent, Quantity
from logbook.records import model
from logbook.records.ids import Ref
from logbook.records.model import Build, Entry, Part, Piece, Record
from logbook.records.snapshot import Snapshot
from logbook.records.state import (
    Dimension,
    current_build,
    dimension,
    drawn_text,
    part_of,
    piece_state,
    readings_of,
    undisposed,
)
from logbook.records.verdict_word import judged
from logbook.records.words import Grade, Source, State

GONE = {State.SCRAPPED, State.TAKEN_OUT, State.SENT_OUT}


@dataclass(frozen=True, slots=True)
class LastValue:
    """The reading taken last: what of, its figures, how it was drawn, its verdict."""

    owner: str
    what: str
    value: Quantity
    drawn: str
    verdict: str


@dataclass(frozen=True, slots=True)
class Wait:
    """Something not to do yet: `hold` is what an override names, and why it waits."""

    hold: str
    words: str
    step: Ref | None = None


@dataclass(frozen=True, slots=True)
class Glance:
    """Everything the first screen says besides the entries."""

    build: Build | None = None
    builds: tuple[Build, ...] = ()
    title: str = ""
    where: str = ""
    where_when: str = ""
    waits: tuple[Wait, ...] = ()
    undecided: tuple[str, ...] = ()
    bare: tuple[str, ...] = ()
    problems: int = 0
    first_problem: str = ""
    last: LastValue | None = None


def glance(snapshot: Snapshot, build: Build | None = None) -> Glance:
    """Look a project over for one build, the current one if none is named."""
    build = build or current_build(snapshot)
    entries = entries_of(snapshot, build)
    where, when = _where(snapshot, entries or snapshot.entries)
    return Glance(
        build=build,
        builds=snapshot.all(Build),
        title=snapshot.project.title,
        where=where,
        where_when=when,
        undecided=tuple(fault.title for fault in undisposed(snapshot)),
        bare=tuple(_bare(snapshot, build)),
        problems=len(snapshot.problems),
        first_problem=_first(snapshot.problems),
        last=last_value(snapshot, entries),
    )


def _first(problems: Sequence[Problem]) -> str:
    """Give the problem to mend first: a conflict is what makes most of the others."""
    ordered = sorted(problems, key=lambda one: one.found != "a merge conflict")
    return str(ordered[0]) if ordered else ""


def entries_of(snapshot: Snapshot, build: Build | None) -> Sequence[Entry]:
    """Give the entries of a build, oldest first; all where there is no build."""
    if build is None:
        return snapshot.entries
    return snapshot.parted(build.id)[0]


def _where(snapshot: Snapshot, entries: Sequence[Entry]) -> tuple[str, str]:
    if not entries:
        return "", ""
    last = entries[-1]
    part = part_of(snapshot, last)
    said = f"{part.title} · {last.title}" if part else last.title
    return said, f"{last.when.astimezone():%d %b %H:%M}"


def waits_of(told: Told) -> tuple[Wait, ...]:
    """Give what waits and what is to be checked first, the strongest first."""
    return tuple(
        Wait(
            one.about.name,
            one.statement if one.grade is Grade.WAIT else f"check: {one.statement}",
            one.step,
        )
        for one in told.open
    )


def _bare(snapshot: Snapshot, build: Build | None) -> Iterator[str]:
    """Name the parts and pieces nothing is on record against.

    What is bought is counted: most of it never has anything to be said about.
    """
    bought = 0
    for part in snapshot.all(Part):
        pieces = [p for p in snapshot.mentions(part) if isinstance(p, Piece)]
        here = [p for p in pieces if build is None or _in(p, build)]
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
        if not isinstance(entry, model.Run):
            continue
        for reading in reversed(entry.readings):
            if not isinstance(reading.value, Absent):
                return _told(snapshot, entry, reading)
    return None


def _told(snapshot: Snapshot, run: model.Run, reading: model.Reading) -> LastValue:
    assert isinstance(reading.value, Quantity)
    part = part_of(snapshot, run)
    piece = snapshot.find(run.piece, Piece)
    drawn = drawn_for(snapshot, piece, reading.what)
    at = f" at {reading.place}" if reading.place else ""
    return LastValue(
        owner=piece.title if piece else part.title if part else "",
        what=f"{reading.what.name}{at}",
        value=reading.value,
        drawn=drawn_text(drawn) if drawn else "",
        verdict=judged(drawn, reading.value, uncertainty(snapshot, run, reading)),
    )


def drawn_for(
    snapshot: Snapshot, piece: Piece | None, what: object
) -> Dimension | None:
    """Give a dimension as the piece's own revision draws it."""
    item = snapshot.find(what, model.Characteristic)  # type: ignore[call-overload]
    if item is None:
        return None
    revision = snapshot.find(piece.revision, model.Revision) if piece else None
    return dimension(snapshot, revision, item)


def uncertainty(
    snapshot: Snapshot, run: model.Run, reading: model.Reading
) -> Quantity | None:
    """Give the expanded uncertainty of the instrument of a reading, if known."""
    with_what = reading.instrument or run.instrument
    instrument = snapshot.find(with_what, model.Instrument)
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
    snapshot: Snapshot, piece: Piece, item: model.Characteristic, place: str
) -> model.Reading | None:
    """Give the newest reading of a dimension of a piece at a place."""
    for taken in reversed(readings_of(snapshot, piece, item)):
        if taken.reading.place == place:
            return taken.reading
    return None
