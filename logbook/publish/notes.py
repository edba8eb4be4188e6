"""Builder notes: what happened on the bench, for someone who builds it next."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path

from logbook.advice.advice import STANDING
from logbook.publish.fault_story import faults_of
from logbook.publish.hours_told import hours_told
from logbook.publish.joints_told import joints_told
from logbook.publish.pages import render
from logbook.publish.part_story import by_title, stories
from logbook.publish.signals import Spoken, of_the_whole
from logbook.publish.statements import stuff
from logbook.records import model
from logbook.records.snapshot import Snapshot
from logbook.records.state import current_revision, part_of
from logbook.records.words import Blame

DEFERS = (
    "This is one builder's record, not advice for your shop: local codes, the makers' "
    "instructions and licensed practice decide wherever they apply."
)

PLACE = "as-built/published/builder-notes.md"

BLAMED = {
    Blame.DRAWING: "Yes: the drawing is wrong.",
    Blame.PIECE: "No: it was this piece only.",
    Blame.MACHINE: "No: it comes from this shop's machine.",
    Blame.UNKNOWN: "Nobody knows yet.",
}

_OWN = (Blame.PIECE, Blame.MACHINE)

_TOLD: dict[type[model.Entry], str] = {
    model.StepDone: "Done",
    model.Run: "Measured",
    model.Deviation: "Differs from the drawing",
    model.Failure: "Went wrong",
    model.Decision: "Decided",
    model.Disposal: "What became of it",
    model.Note: "Note",
    model.Status: "What became of it",
    model.Count: "Counted",
    model.Override: "Went on past a warning",
}
"""What the diary tells, and in which words; whatever is not named stays private."""


@dataclass(frozen=True, slots=True)
class Decided:
    """A decision with its reason, and the part and revision it is about."""

    day: date
    part: str
    what: str
    because: str
    instead_of: str
    opened: str
    blame: Blame | None


@dataclass(frozen=True, slots=True)
class Day:
    """What happened on one day of one build."""

    build: str
    day: date
    lines: tuple[tuple[str, str], ...]


def write_notes(snapshot: Snapshot, own_templates: Path | None = None) -> str:
    """Write the builder notes of a project as Markdown."""
    faults = faults_of(snapshot)
    spoken = Spoken()
    whole = of_the_whole(_words(snapshot))
    spoken.before(whole, "before-you-start", "Before you start")
    told = tuple(stories(snapshot, spoken))
    decisions = tuple(_decisions(snapshot))
    named = {story.title.casefold() for story in told}
    facts = {
        "project": snapshot.project,
        "whole": whole,
        "defers": DEFERS,
        "builds": snapshot.all(model.Build),
        "hours": tuple(hours_told(snapshot)),
        "drawing": [f for f in faults if f.blame is Blame.DRAWING],
        "own": [f for f in faults if f.blame in _OWN],
        "own_decisions": [d for d in decisions if d.blame in _OWN],
        "open": [f for f in faults if f.blame is Blame.UNKNOWN],
        "lost": [fault for fault in faults if not fault.part],
        "parts": told,
        "quiet": [
            part.title
            for part in by_title(snapshot)
            if part.title.casefold() not in named
        ],
        "decisions": [d for d in decisions if d.blame not in _OWN],
        "joints": joints_told(snapshot),
        "standing": STANDING,
        "days": tuple(_days(snapshot)),
        "blamed": BLAMED,
        "out": PLACE.rpartition("/")[0],
    }
    return render("notes.md.j2", facts, own_templates)


def _words(snapshot: Snapshot) -> Iterator[str]:
    """Give the words that say what the finished thing is and is for."""
    yield snapshot.project.title
    yield snapshot.project.intended_use
    for part in snapshot.all(model.Part):
        made_of = stuff(snapshot, part, current_revision(snapshot, part))
        yield f"{part.title} {made_of}"
    for build in snapshot.all(model.Build):
        yield build.purpose


def _decisions(snapshot: Snapshot) -> Iterator[Decided]:
    for decision in snapshot.all(model.Decision):
        part = part_of(snapshot, decision)
        opened = snapshot.find(decision.opens, model.Revision)
        yield Decided(
            day=decision.when.date(),
            part=part.title if part else "",
            what=decision.title,
            because=decision.because,
            instead_of=decision.instead_of,
            opened=opened.title if opened else "",
            blame=decision.met_by_others,
        )


# -- the diary -------------------------------------------------------------------


def _days(snapshot: Snapshot) -> Iterator[Day]:
    made: dict[tuple[str, date], list[tuple[str, str]]] = {}
    for entry in sorted(snapshot.entries, key=_order):
        words = _told(snapshot, entry)
        if words is None:
            continue
        build = snapshot.find(entry.build, model.Build)
        key = (build.title if build else "the design", entry.when.date())
        lines = made.setdefault(key, [])
        # One plain line can make several records; it was said once.
        if words[1] not in {said for _, said in lines}:
            lines.append(words)
    for (build_title, moment), lines in made.items():
        yield Day(build_title, moment, tuple(lines))


def _order(entry: model.Entry) -> tuple[datetime, bool]:
    """Order entries; of one instant what was done or measured comes first."""
    return entry.when, not isinstance(entry, model.StepDone | model.Run)


def _told(snapshot: Snapshot, entry: model.Entry) -> tuple[str, str] | None:
    """Say what kind of thing an entry is and what it says; None if it is private."""
    kind = _TOLD.get(type(entry))
    if kind is None or (isinstance(entry, model.Override) and not entry.published):
        return None
    if isinstance(entry, model.StepDone):
        took = f", {entry.time}" if entry.time else ""
        kind = "Taken apart again" if entry.undone else kind
        return kind, f"{entry.title}{took}"
    if isinstance(entry, model.Run):
        return kind, _run(snapshot, entry)
    if isinstance(entry, model.Disposal):
        return kind, _disposal(snapshot, entry)
    if isinstance(entry, model.Status):
        return kind, entry.title + (
            f", because {entry.because}" if entry.because else ""
        )
    return kind, entry.title


def _disposal(snapshot: Snapshot, entry: model.Disposal) -> str:
    """Say what was decided for a piece, or what was typed where that says it."""
    piece = snapshot.find(entry.piece)
    why = f", because {entry.because}" if entry.because else ""
    if piece is None or not entry.title.startswith(entry.disposition.value):
        return f"{entry.title}{why}"
    return f"{piece.title}: {entry.disposition.value}{why}"


def _run(snapshot: Snapshot, run: model.Run) -> str:
    """Say a measuring run: as it was typed, or by piece and dimension."""
    if "=" not in run.title:
        return run.title
    piece = snapshot.find(run.piece)
    items = dict.fromkeys(reading.what.name for reading in run.readings)
    return f"{piece.title if piece else 'a piece'}: {', '.join(items)}"
