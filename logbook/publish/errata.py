"""The page of known faults of a release, or of all releases, and its facts as data."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from logbook.advice.applies import (
    DROPPED,
    WORDS,
    applies,
    faults_in,
    standing,
    undecided_in,
)
from logbook.advice.drafted import is_draft, known_faults
from logbook.publish.frozen import tried_words
from logbook.publish.notes import DEFERS
from logbook.publish.pages import render
from logbook.records import model
from logbook.records.model import Erratum, Release, Revision
from logbook.records.snapshot import Snapshot
from logbook.records.state import part_of, revisions_in, revisions_of, verdict_of
from logbook.records.words import ErratumStatus, Severity

SEVERITIES = {
    Severity.SAFETY: "somebody could get hurt",
    Severity.DAMAGE: "spoils a part, a tool or the work",
    Severity.FUNCTION: "does not do what it should",
    Severity.FIT: "cannot be put together as written",
    Severity.DOCUMENT: "wrong or missing in the papers only",
}

STATUSES = {
    ErratumStatus.REPORTED: "reported, not confirmed yet",
    ErratumStatus.CONFIRMED: "confirmed",
    ErratumStatus.WAY_ROUND: "confirmed, the way round is tried",
    ErratumStatus.FIXED: "fixed",
    ErratumStatus.VERIFIED: "fixed, the fix is tried",
    ErratumStatus.REJECTED: "rejected",
    ErratumStatus.WITHDRAWN: "withdrawn",
}


@dataclass(frozen=True, slots=True)
class Stands:
    """How one revision stands to a fault, in words."""

    revision: str
    releases: tuple[str, ...]
    words: str


@dataclass(frozen=True, slots=True)
class KnownFault:
    """A known fault as the page tells it."""

    id: str
    title: str
    part: str
    severity: str
    means: str
    stop_using_until: str
    affected: tuple[str, ...]
    releases: tuple[str, ...]
    how_to_tell: str
    symptom: str
    consequence: str
    way_round: str
    do_this: str
    side_effects: str
    fix: str
    status: str
    drafted: bool
    evidence: tuple[str, ...]
    entries: tuple[str, ...]
    statements: tuple[str, ...]
    table: tuple[Stands, ...]
    changed: str


@dataclass(frozen=True, slots=True)
class Covered:
    """A release the page is about, and what it came to."""

    label: str
    day: str
    tried: str
    count: int


def errata_facts(
    snapshot: Snapshot, releases: Sequence[Release], *, every: bool = False
) -> dict[str, Any]:
    """Give what the page of known faults says, as data."""
    if every:
        chosen = [f for f in known_faults(snapshot) if f.status not in DROPPED]
        unsure: list[Erratum] = []
    else:
        chosen = [f for release in releases for f in faults_in(snapshot, release)]
        unsure = [f for release in releases for f in undecided_in(snapshot, release)]
    dropped = [f for f in known_faults(snapshot) if f.status in DROPPED]
    return {
        "project": snapshot.project.title,
        "releases": [asdict(_covered(snapshot, release)) for release in releases],
        "faults": [asdict(told(snapshot, fault)) for fault in chosen],
        "not_known": [asdict(told(snapshot, fault)) for fault in unsure],
        "dropped": [asdict(told(snapshot, fault)) for fault in dropped],
    }


def write_errata(
    snapshot: Snapshot,
    releases: Sequence[Release],
    own_templates: Path | None = None,
    *,
    every: bool = False,
) -> str:
    """Write the known faults of these releases as Markdown."""
    facts = errata_facts(snapshot, releases, every=every)
    facts |= {"every": every, "defers": DEFERS, "record": snapshot.project}
    return render("errata.md.j2", facts, own_templates)


def _covered(snapshot: Snapshot, release: Release) -> Covered:
    return Covered(
        label=release.label,
        day=f"{release.when:%Y-%m-%d}",
        tried=tried_words(snapshot, release),
        count=len(faults_in(snapshot, release)),
    )


def told(snapshot: Snapshot, erratum: Erratum) -> KnownFault:
    """Tell a fault as the page does."""
    part = snapshot.find(erratum.part, model.Part)
    affected = [snapshot.find(ref, Revision) for ref in erratum.revisions]
    return KnownFault(
        id=erratum.id,
        title=erratum.title,
        part=part.title if part else "",
        severity=erratum.severity.value,
        means=SEVERITIES[erratum.severity],
        stop_using_until=erratum.stop_using_until,
        affected=tuple(one.title for one in affected if one),
        releases=_releases(snapshot, erratum),
        how_to_tell=erratum.how_to_tell,
        symptom=erratum.symptom,
        consequence=erratum.consequence,
        way_round=WORDS[erratum.way_round],
        do_this=erratum.do_this,
        side_effects=erratum.side_effects,
        fix=_fix(snapshot, erratum),
        status=STATUSES[erratum.status],
        drafted=is_draft(snapshot, erratum),
        evidence=tuple(_evidence(snapshot, erratum)),
        entries=tuple(str(ref) for ref in erratum.from_entries),
        statements=tuple(erratum.statements),
        table=tuple(_table(snapshot, erratum)),
        changed=f"{erratum.published or erratum.when.date():%Y-%m-%d}",
    )


def _releases(snapshot: Snapshot, erratum: Erratum) -> tuple[str, ...]:
    every = snapshot.all(Release)
    held = [r.label for r in every if applies(snapshot, erratum, r)]
    return tuple(dict.fromkeys((*held, *erratum.releases)))


def _fix(snapshot: Snapshot, erratum: Erratum) -> str:
    cure = snapshot.find(erratum.fixed_by, Revision)
    if cure is None:
        return ""
    tried = verdict_of(snapshot, cure)
    said = "untried: nobody has made it yet" if tried == "untried" else tried
    changed = f" ({cure.changed})" if cure.changed else ""
    held = [r.label for r in snapshot.all(Release) if cure in revisions_in(snapshot, r)]
    where = f", in release {' and '.join(held)}" if held else ", not released yet"
    remake = f"; remake: {cure.remake}" if cure.remake else ""
    mates = f"; fits with {', '.join(cure.mates_with)}" if cure.mates_with else ""
    return f"{cure.title}{changed}{where}; {said}{remake}{mates}"


def _evidence(snapshot: Snapshot, erratum: Erratum) -> Iterator[str]:
    builds = set()
    for ref in erratum.from_entries:
        entry = snapshot.find(ref)
        if not isinstance(entry, model.Entry):
            continue
        build = snapshot.find(entry.build, model.Build)
        where = f", {build.title}" if build else ""
        builds |= {build.id} if build else set()
        yield f"{entry.when:%Y-%m-%d}{where}: {entry.title} [{entry.id}]"
    made = _builds_that_made(snapshot, erratum)
    if made:
        seen = len(builds & made)
        yield f"seen in {seen} of {len(made)} builds that made an affected revision"


def _builds_that_made(snapshot: Snapshot, erratum: Erratum) -> set[str]:
    affected = {ref.id for ref in erratum.revisions}
    pieces = snapshot.all(model.Piece)
    made = (p for p in pieces if p.revision and p.revision.id in affected)
    found = (snapshot.find(piece.build, model.Build) for piece in made)
    return {build.id for build in found if build}


def _table(snapshot: Snapshot, erratum: Erratum) -> Iterator[Stands]:
    affected = (snapshot.find(ref, Revision) for ref in erratum.revisions)
    found = (part_of(snapshot, revision) for revision in affected if revision)
    for part in dict.fromkeys(part.id for part in found if part):
        for revision in revisions_of(snapshot, snapshot.lookup(part, model.Part)):
            labels = tuple(
                release.label
                for release in snapshot.all(Release)
                if revision in revisions_in(snapshot, release)
            )
            words = standing(snapshot, erratum, revision)
            yield Stands(revision.title, labels, words)
