"""A known fault told to who holds an affected release: what to do, and how to tell."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from logbook.advice.applies import (
    NOT_AFFECTED,
    NOT_FIXED,
    NOT_KNOWN,
    WORDS,
    applies,
    has_it,
    standing,
    undecided,
)
from logbook.advice.drafted import is_draft
from logbook.advice.failing import way_round
from logbook.advice.fixing import Fixed, do_now, fixed, listed, remake_words
from logbook.advice.headline import headline
from logbook.advice.helped import helped_with
from logbook.advice.trying import entries_of
from logbook.publish.sizes_told import sizes_told
from logbook.publish.told_from import newest_entry
from logbook.publish.withdrawn import withdrawn_among
from logbook.records import design, happenings, workshop
from logbook.records.design import Revision
from logbook.records.dispositions import disposition_of
from logbook.records.made_public import Erratum, Release
from logbook.records.references import part_of
from logbook.records.revisions import revisions_in, revisions_of
from logbook.records.snapshot import Snapshot
from logbook.records.words import Disposition, ErratumStatus, Severity

SEVERITIES = {
    Severity.SAFETY: "somebody could get hurt",
    Severity.DAMAGE: "spoils a part, a tool or the work",
    Severity.FUNCTION: "does not do what it should",
    Severity.FIT: "cannot be put together as written",
    Severity.UNKNOWN: "nobody said what it does",
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
    stop: str
    affected: tuple[str, ...]
    withdrawn: tuple[str, ...]
    releases: tuple[str, ...]
    how_to_tell: str
    sizes: str
    symptom: str
    consequence: str
    way_round: str
    do_this: str
    label: str
    side_effects: str
    remake: str
    fix: str
    fixed_in: str
    fits_with: str
    but: str
    again: str
    instead: str
    status: str
    drafted: bool
    evidence: tuple[str, ...]
    entries: tuple[str, ...]
    photos: tuple[tuple[str, str], ...]
    statements: tuple[str, ...]
    table: tuple[Stands, ...]
    newest_entry: str


def told(snapshot: Snapshot, erratum: Erratum) -> KnownFault:
    """Tell a fault as the page does."""
    part = snapshot.find(erratum.part, design.Part)
    table = tuple(_table(snapshot, erratum))
    affected = tuple(_affected(snapshot, erratum, table))
    now, do = fixed(snapshot, erratum), do_now(snapshot, erratum)
    releases = _releases(snapshot, erratum)
    titles = tuple(one.title for one in affected)
    withdrawn = withdrawn_among(snapshot, affected)
    return KnownFault(
        id=erratum.id,
        title=erratum.title,
        part=part.title if part else "",
        severity=erratum.severity.value,
        means=means(snapshot, erratum),
        stop=stop_words(erratum, part, titles, releases),
        affected=titles,
        withdrawn=tuple(f"{w.revision}: {w.because}" for w in withdrawn),
        releases=releases,
        how_to_tell=erratum.how_to_tell,
        sizes="; ".join(sizes_told(snapshot, erratum)),
        symptom=erratum.symptom,
        consequence=erratum.consequence,
        way_round=WORDS[way_round(snapshot, erratum)],
        do_this=do,
        label=helped_with(snapshot, erratum, now.revision if now else None),
        side_effects=erratum.side_effects,
        remake=remake_words(snapshot, erratum),
        fix=_fix(now, what=True) if now else "",
        fixed_in=_fix(now) if now else "",
        fits_with=", ".join(now.revision.mates_with) if now else "",
        but=now.but if now and do == erratum.do_this else "",
        again=_again(table),
        instead=_instead(now, table) if do == erratum.do_this else "",
        status=_status(erratum, now, table),
        drafted=is_draft(snapshot, erratum),
        evidence=tuple(_evidence(snapshot, erratum)),
        entries=tuple(str(ref) for ref in erratum.from_entries),
        photos=tuple(_photos(snapshot, erratum)),
        statements=tuple(erratum.statements),
        table=table,
        newest_entry=f"{newest_entry(snapshot, erratum):%Y-%m-%d}",
    )


def means(snapshot: Snapshot, erratum: Erratum) -> str:
    """Say how bad a fault is: what it does, or no more than that is on record."""
    does = SEVERITIES[erratum.severity]
    if erratum.severity is not Severity.UNKNOWN:
        return does
    done = {disposition_of(snapshot, one) for one in entries_of(snapshot, erratum)}
    return _USED if done == {Disposition.USE_AS_IS} else does


_USED = (
    "the piece on record was used as it is, so it goes together; nobody said more of it"
)


def stop_words(
    erratum: Erratum,
    part: design.Part | None,
    affected: tuple[str, ...],
    releases: tuple[str, ...],
) -> str:
    """Say what exactly is not to be used, and until when; empty where it may be."""
    if not erratum.stop_using_until:
        return ""
    until = erratum.stop_using_until.strip().removeprefix("until ").rstrip(".")
    what = f"the {part.title}" if part else "what you built"
    of = f" of release {listed(releases)}" if releases else ""
    named = f" ({', '.join(affected)})" if affected else ""
    return f"Do not use {what}{of}{named} until {until}."


def _releases(snapshot: Snapshot, erratum: Erratum) -> tuple[str, ...]:
    every = snapshot.all(Release)
    held = [r.label for r in every if applies(snapshot, erratum, r)]
    return tuple(dict.fromkeys((*held, *erratum.releases)))


def _affected(
    snapshot: Snapshot, erratum: Erratum, table: tuple[Stands, ...]
) -> Iterator[Revision]:
    """Give the revisions that have it: those named, and those it came back in."""
    named = [snapshot.find(ref, Revision) for ref in erratum.revisions]
    yield from (one for one in named if one)
    back = [one.revision for one in table if one.words.startswith(NOT_FIXED)]
    for revision in snapshot.all(Revision) if back else ():
        if revision.title in back and revision not in named:
            yield revision


def _again(table: tuple[Stands, ...]) -> str:
    """Say in which revision that was to fix it it came back; empty where in none."""
    back = [one for one in table if one.words.startswith(NOT_FIXED)]
    said = (
        f"{one.revision}: {one.words.removeprefix(f'{NOT_FIXED}: ')}" for one in back
    )
    return "; ".join(said)


def _instead(now: Fixed | None, table: tuple[Stands, ...]) -> str:
    """Say that what was to fix it has not, and what to take; else nothing."""
    back = {one.revision for one in table if one.words.startswith(NOT_FIXED)}
    if not back:
        return ""
    if now is None or now.revision.title in back:
        return "that has not held"
    return f"that has not held: take {now.revision.title}, {now.where}"


def _fix(now: Fixed, *, what: bool = False) -> str:
    """Say which revision cures it, in which release, and whether it was tried."""
    told = now.changed if what else ""
    named = f"{now.revision.title} ({told})" if told else now.revision.title
    said = (f"{named}, {now.where}", now.tried, now.but, now.before)
    return "; ".join(filter(None, said))


def _status(erratum: Erratum, now: Fixed | None, table: tuple[Stands, ...]) -> str:
    """Say where it stands; not that it is fixed where it came back in what fixes it."""
    for one in table:
        back = one.words.startswith(NOT_FIXED)
        if now and one.revision == now.revision.title and back:
            return f"{STATUSES[ErratumStatus.CONFIRMED]}, {one.words}"
    return STATUSES[erratum.status]


def _evidence(snapshot: Snapshot, erratum: Erratum) -> Iterator[str]:
    builds = set()
    for ref in erratum.from_entries:
        entry = snapshot.find(ref)
        if not isinstance(entry, happenings.Entry):
            continue
        build = snapshot.find(entry.build, workshop.Build)
        where = f", {build.title}" if build else ""
        builds |= {build.id} if build else set()
        told = entry.title
        if isinstance(entry, happenings.Deviation | happenings.Failure):
            told = headline(snapshot, entry)
        what = "" if told == erratum.title else f": {told}"
        yield f"found on {entry.when:%Y-%m-%d}{where}{what}"
    made = _builds_that_made(snapshot, erratum)
    if made:
        seen = len(builds & made)
        yield f"seen in {seen} of {len(made)} builds that made an affected revision"


def _photos(snapshot: Snapshot, erratum: Erratum) -> Iterator[tuple[str, str]]:
    """Give path and caption of what its entries show."""
    for ref in erratum.from_entries:
        entry = snapshot.find(ref)
        if isinstance(entry, happenings.Entry):
            for photo in entry.photos:
                yield photo.path, photo.caption or entry.title


def _builds_that_made(snapshot: Snapshot, erratum: Erratum) -> set[str]:
    affected = {ref.id for ref in erratum.revisions}
    pieces = snapshot.all(workshop.Piece)
    made = (p for p in pieces if p.revision and p.revision.id in affected)
    found = (snapshot.find(piece.build, workshop.Build) for piece in made)
    return {build.id for build in found if build}


def _table(snapshot: Snapshot, erratum: Erratum) -> Iterator[Stands]:
    affected = (snapshot.find(ref, Revision) for ref in erratum.revisions)
    found = (part_of(snapshot, revision) for revision in affected if revision)
    for part in dict.fromkeys(part.id for part in found if part):
        for revision in revisions_of(snapshot, snapshot.lookup(part, design.Part)):
            labels = tuple(
                release.label
                for release in snapshot.all(Release)
                if revision in revisions_in(snapshot, release)
            )
            words = standing(snapshot, erratum, revision)
            yield Stands(revision.title, labels, words)


def stands_in(snapshot: Snapshot, erratum: Erratum, release: Release) -> str:
    """Say in words how a release stands to a fault."""
    held = {revision.part.id: revision for revision in revisions_in(snapshot, release)}
    revision = held.get(erratum.part.id) if erratum.part else None
    words = standing(snapshot, erratum, revision) if revision else NOT_AFFECTED
    if applies(snapshot, erratum, release):
        return words if has_it(words) else WORDS[way_round(snapshot, erratum)]
    return NOT_KNOWN if undecided(snapshot, erratum, release) else words
