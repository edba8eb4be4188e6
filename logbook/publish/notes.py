"""Builder notes: what happened on the bench, for someone who builds it next."""

from __future__ import annotations

import posixpath
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from logbook.advice.drafted import conditions_text, cured_by
from logbook.publish.asbuilt import verdict
from logbook.publish.pages import render
from logbook.publish.signals import Caution, grouped, process_words, reminders
from logbook.records import model
from logbook.records.kinds import kind_of
from logbook.records.model import Deviation, Failure, Part
from logbook.records.snapshot import Snapshot
from logbook.records.state import (
    characteristics_of,
    dimension,
    drawn_text,
    part_of,
    piece_state,
    pieces_of,
    readings_of,
    revisions_of,
    shown_label,
    verdict_of,
)
from logbook.records.words import Blame, CauseStatus

DEFERS = (
    "This is one builder's record, not advice for your shop: local codes, the makers' "
    "instructions and licensed practice decide wherever they apply."
)

PLACE = "as-built/published/builder-notes.md"

BLAMED = {
    Blame.DRAWING: "Yes: the drawing is wrong.",
    Blame.PIECE: "No: it was this piece only.",
    Blame.MACHINE: "No: it comes from this shop's machine.",
    Blame.UNKNOWN: "Not known yet.",
}


@dataclass(frozen=True, slots=True)
class Measured:
    """One dimension of one piece: drawn, became, and the verdict in words."""

    piece: str
    revision: str
    what: str
    drawn: str
    became: str
    verdict: str


@dataclass(frozen=True, slots=True)
class Fault:
    """A failure or deviation, told so that the next builder can avoid it."""

    title: str
    part: str
    day: date
    happened: str
    where: str
    conditions: str
    cause: str
    cure: str
    done: str
    blame: Blame
    fixed: str
    prose: str
    folder: str
    photos: tuple[model.Photo, ...]


@dataclass(frozen=True, slots=True)
class PartStory:
    """A part: its revisions, what its pieces became, what happened to it."""

    title: str
    made_of: str
    revisions: tuple[str, ...]
    pieces: tuple[str, ...]
    measured: tuple[Measured, ...]


@dataclass(frozen=True, slots=True)
class Day:
    """What happened on one day of one build."""

    build: str
    day: date
    lines: tuple[tuple[str, str], ...]


def write_notes(snapshot: Snapshot, own_templates: Path | None = None) -> str:
    """Write the builder notes of a project as Markdown."""
    faults = tuple(faults_of(snapshot))
    facts = {
        "project": snapshot.project,
        "cautions": grouped(cautions_for(snapshot)),
        "defers": DEFERS,
        "builds": snapshot.all(model.Build),
        "failures": [f for f in faults if f.happened == "failed"],
        "drawing": [f for f in faults if f.blame is Blame.DRAWING],
        "own": [f for f in faults if f.blame in (Blame.PIECE, Blame.MACHINE)],
        "open": [f for f in faults if f.blame is Blame.UNKNOWN],
        "decisions": tuple(_decisions(snapshot)),
        "parts": tuple(_story(snapshot, part) for part in by_title(snapshot)),
        "days": tuple(_days(snapshot)),
        "blamed": BLAMED,
        "out": PLACE.rpartition("/")[0],
    }
    return render("notes.md.j2", facts, own_templates)


# -- faults ----------------------------------------------------------------------


def faults_of(snapshot: Snapshot) -> Iterator[Fault]:
    """Give every failure and deviation with what cured it, in order."""
    for entry in snapshot.entries:
        if isinstance(entry, Failure | Deviation):
            yield _fault(snapshot, entry)


def _fault(snapshot: Snapshot, entry: Failure | Deviation) -> Fault:
    part = part_of(snapshot, entry)
    done = entry.disposition.value if entry.disposition else ""
    for record in snapshot.mentions(entry):
        if isinstance(record, model.Disposal):
            done = record.disposition.value
    cured = cured_by(snapshot, entry)
    failed = isinstance(entry, Failure)
    return Fault(
        title=entry.title,
        part=part.title if part else "",
        day=entry.when.date(),
        happened="failed" if failed else "differs",
        where=entry.where if isinstance(entry, Failure) else "",
        conditions=(
            conditions_text(entry.conditions) if isinstance(entry, Failure) else ""
        ),
        cause=_cause(entry),
        cure=_cure(snapshot, entry),
        done=done,
        blame=entry.met_by_others,
        fixed=f"{cured.title}, {verdict_of(snapshot, cured)}" if cured else "",
        prose=entry.prose,
        folder=posixpath.dirname(snapshot.path(entry)),
        photos=entry.photos,
    )


def _cause(entry: Failure | Deviation) -> str:
    if isinstance(entry, Deviation):
        if entry.wanted and entry.found:
            return f"drawn {entry.wanted}, became {entry.found}"
        return f"off by {entry.off}" if entry.off else ""
    if entry.cause is None:
        return ""
    proven = entry.cause.status is CauseStatus.PROVEN
    return f"{entry.cause.said} ({'proven' if proven else 'guessed'})"


def _cure(snapshot: Snapshot, entry: Failure | Deviation) -> str:
    if entry.cure:
        return entry.cure
    for record in snapshot.mentions(entry):
        if isinstance(record, model.Revision):
            return record.changed or record.title
        if isinstance(record, model.Decision):
            return record.title
    return ""


# -- cautions --------------------------------------------------------------------


def cautions_for(snapshot: Snapshot) -> tuple[Caution, ...]:
    """Give the reminders the processes and entries of this project call for."""
    words = [snapshot.project.title, snapshot.project.intended_use]
    for part in snapshot.all(Part):
        words += [process_words(word, part.material) for word in part.process]
    for step in snapshot.all(model.Step):
        words += [*step.process, step.title]
    words += [build.purpose for build in snapshot.all(model.Build)]
    words += [entry.title for entry in snapshot.entries]
    return reminders(words)


# -- decisions, parts, days ------------------------------------------------------


def _decisions(snapshot: Snapshot) -> Iterator[tuple[model.Decision, str, str]]:
    for decision in snapshot.all(model.Decision):
        part = part_of(snapshot, decision)
        opened = snapshot.find(decision.opens, model.Revision)
        yield decision, part.title if part else "", opened.title if opened else ""


def by_title(snapshot: Snapshot) -> list[Part]:
    """Give the parts by name, so that one is found quickly."""
    return sorted(snapshot.all(Part), key=lambda part: (part.title.casefold(), part.id))


def _story(snapshot: Snapshot, part: Part) -> PartStory:
    revisions = revisions_of(snapshot, part)
    return PartStory(
        title=part.title,
        made_of=", ".join(filter(None, (*part.process, part.material))),
        revisions=tuple(_revision_line(snapshot, one) for one in revisions),
        pieces=tuple(
            f"{piece.title}: {piece_state(snapshot, piece)}"
            for piece in pieces_of(snapshot, part)
        ),
        measured=tuple(_measured(snapshot, part)),
    )


def _revision_line(snapshot: Snapshot, revision: model.Revision) -> str:
    said = [shown_label(revision), verdict_of(snapshot, revision)]
    if revision.changed:
        said.append(revision.changed)
    if revision.why:
        said.append(f"because {revision.why}")
    if revision.remake:
        said.append(f"remake: {revision.remake}")
    return " · ".join(said)


def _measured(snapshot: Snapshot, part: Part) -> Iterator[Measured]:
    for piece in pieces_of(snapshot, part):
        revision = snapshot.find(piece.revision, model.Revision)
        label = shown_label(revision) if revision else ""
        for item in characteristics_of(snapshot, part):
            taken = [t.reading for t in readings_of(snapshot, piece, item)]
            if not taken:
                continue
            drawn = dimension(snapshot, revision, item)
            yield Measured(
                piece=piece.title,
                revision=label,
                what=item.title,
                drawn=drawn_text(drawn),
                became=", ".join(_became(reading) for reading in taken),
                verdict=verdict(drawn, (reading.value for reading in taken)),
            )


def _became(reading: model.Reading) -> str:
    said = " ".join(filter(None, (reading.place, reading.state)))
    return f"{reading.value} ({said})" if said else str(reading.value)


def _days(snapshot: Snapshot) -> Iterator[Day]:
    made: dict[tuple[str, date], list[tuple[str, str]]] = {}
    for entry in snapshot.entries:
        build = snapshot.find(entry.build, model.Build)
        key = (build.title if build else "no build", entry.when.date())
        line = (kind_of(entry).shown, entry.title)
        lines = made.setdefault(key, [])
        if not lines or lines[-1][1] != entry.title:
            lines.append(line)
    for (build_title, moment), lines in made.items():
        yield Day(build_title, moment, tuple(lines))
