"""Builder notes: what happened on the bench, for someone who builds it next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from logbook.advice.ground.advice import STANDING
from logbook.counting import so_many
from logbook.publish.builders import defers, whose_builds
from logbook.publish.notes.asked import questions
from logbook.publish.notes.diary import days
from logbook.publish.notes.gaps_told import gaps_told
from logbook.publish.notes.joints_told import joints_told
from logbook.publish.notes.part_story import by_title, stories
from logbook.publish.pages import render
from logbook.publish.parts.fault_story import faults_of
from logbook.publish.parts.hours_told import hours_told
from logbook.publish.release.statements import stuff
from logbook.publish.signals import Spoken, of_the_whole
from logbook.records.kinds import design, happenings, workshop
from logbook.records.kinds.words import Blame, Source
from logbook.records.states.undated import undated
from logbook.records.together.references import part_of
from logbook.records.together.revisions import current_revision
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import whole_title

PLACE = "as-built/published/builder-notes.md"

BLAMED = {
    Blame.DRAWING: "Yes: the drawing is wrong.",
    Blame.PIECE: "No: it was this piece only.",
    Blame.MACHINE: "No: it comes from this shop's machine.",
    Blame.UNKNOWN: "Nobody knows yet.",
}

_OF_SEVERAL = {Blame.MACHINE: "No: it comes from the machine of that build's shop."}
"""What is said otherwise where the builds are of several builders."""

_OWN = (Blame.PIECE, Blame.MACHINE)


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


def write_notes(
    snapshot: Snapshot,
    own_templates: Path | None = None,
    names: Mapping[str, str] | None = None,
) -> str:
    """Write the builder notes of a project as Markdown.

    `names` are those of the builders by their builds, where they are several.
    """
    names = names or {}
    faults = faults_of(snapshot)
    spoken = Spoken()
    whole = of_the_whole(_words(snapshot))
    spoken.before(whole, "before-you-start", "Before you start")
    told = tuple(stories(snapshot, spoken))
    decisions = tuple(_decisions(snapshot))
    named = {story.title.casefold() for story in told}
    untold = [p for p in by_title(snapshot) if p.title.casefold() not in named]
    asked = questions(snapshot)
    facts = {
        "project": snapshot.project,
        "whole": whole,
        "defers": defers(names),
        "whose": whose_builds(snapshot, names),
        "builds": snapshot.all(workshop.Build),
        "hours": tuple(hours_told(snapshot)),
        "drawing": [f for f in faults if f.blame is Blame.DRAWING and not f.taken_back],
        "own": [f for f in faults if f.blame in _OWN],
        "own_decisions": [d for d in decisions if d.blame in _OWN],
        "open": [f for f in faults if f.blame is Blame.UNKNOWN and not f.taken_back],
        "lost": [fault for fault in faults if not fault.part],
        "parts": told,
        "undone": _named(p for p in untold if p.source is not Source.BOUGHT),
        "quiet": _named(p for p in untold if p.source is Source.BOUGHT),
        "asked": [one for one in asked if not one.answer],
        "answered": [one for one in asked if one.answer],
        "decisions": [d for d in decisions if d.blame not in _OWN],
        "gaps": gaps_told(snapshot),
        "joints": joints_told(snapshot),
        "standing": STANDING,
        "days": tuple(days(snapshot)),
        "blamed": {**BLAMED, **_OF_SEVERAL} if names else BLAMED,
        "out": PLACE.rpartition("/")[0],
    }
    return render("notes.md.j2", facts, own_templates)


def _words(snapshot: Snapshot) -> Iterator[str]:
    """Give the words that say what the finished thing is and is for."""
    yield snapshot.project.title
    yield snapshot.project.intended_use
    for part in snapshot.all(design.Part):
        made_of = stuff(snapshot, part, current_revision(snapshot, part))
        yield f"{part.title} {made_of}"
    for build in snapshot.all(workshop.Build):
        yield build.purpose


_MANY = 20
"""Parts of which nothing is told from which on they are only counted."""


def _named(parts: Iterable[design.Part]) -> str:
    """Name parts of which nothing is told; of very many say how many."""
    names = [part.title for part in parts]
    return so_many(names, "part") if len(names) > _MANY else ", ".join(names)


def _unsaid(what: str, because: str) -> str:
    """Give a reason, unless the decision's own words tell it."""
    return "" if because.casefold() in what.casefold() else because


def _decisions(snapshot: Snapshot) -> Iterator[Decided]:
    for decision in snapshot.all(happenings.Decision):
        part, words = part_of(snapshot, decision), whole_title(decision)
        opened = snapshot.find(decision.opens, design.Revision)
        yield Decided(
            day=decision.when.date(),
            part=part.title if part else "",
            what=undated(words),
            because=_unsaid(words, decision.because),
            instead_of=_unsaid(words, decision.instead_of),
            opened=opened.title if opened else "",
            blame=decision.met_by_others,
        )
