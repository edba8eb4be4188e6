"""A known fault told to who holds an affected release: what to do, and how to tell."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from logbook.advice.faults.applies import WORDS, applies
from logbook.advice.faults.doing import do_now, is_idle
from logbook.advice.faults.drafted import is_draft
from logbook.advice.faults.failing import better, returned
from logbook.advice.faults.fixing import listed
from logbook.advice.faults.having import having, tell_now
from logbook.advice.faults.helped import helped_with
from logbook.advice.faults.not_held import way_round
from logbook.advice.faults.trying import entries_of
from logbook.publish.faults.evidence import evidence, photos
from logbook.publish.faults.fix_files import FixFile
from logbook.publish.faults.mending import mending
from logbook.publish.faults.sizes_told import sizes_told
from logbook.publish.faults.stands import Stands, again, by_revision
from logbook.publish.faults.told_from import newest_entry
from logbook.publish.faults.withdrawn import withdrawn_among
from logbook.records.kinds import design
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import (
    Disposition,
    ErratumStatus,
    Severity,
    Source,
    State,
)
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import disposition_of
from logbook.records.states.pieces import piece_state
from logbook.records.states.statements import identity
from logbook.records.together.snapshot import Snapshot

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
    ErratumStatus.WAY_ROUND: "confirmed, a way round is published",
    ErratumStatus.FIXED: "fixed",
    ErratumStatus.VERIFIED: "fixed, the fix is tried",
    ErratumStatus.REJECTED: "rejected",
    ErratumStatus.WITHDRAWN: "withdrawn",
}


@dataclass(frozen=True, slots=True)
class KnownFault:
    """A known fault as the page tells it."""

    id: str
    title: str
    part: str
    bought: bool
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
    idle: bool
    works: tuple[str, ...]
    label: str
    side_effects: str
    remake: str
    take: str
    beside: str
    files: tuple[FixFile, ...]
    guide: str
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
    worded: str


def told(
    snapshot: Snapshot,
    erratum: Erratum,
    release: Release | None = None,
    worded: date | None = None,
) -> KnownFault:
    """Tell a fault as the page does; of one release, to who holds that.

    `worded` is the day its words last changed, where that is known.
    """
    part = snapshot.find(erratum.part, design.Part)
    table = tuple(by_revision(snapshot, erratum))
    found = having(snapshot, erratum)
    do = do_now(snapshot, erratum)
    now = better(snapshot, erratum)
    releases = _releases(snapshot, erratum)
    titles = tuple(one.title for one in found)
    mend = mending(snapshot, erratum, table, release)
    return KnownFault(
        id=erratum.id,
        title=erratum.title,
        part=part.title if part else "",
        bought=part is not None and part.source is Source.BOUGHT,
        severity=erratum.severity.value,
        means=means(snapshot, erratum),
        stop=stop_words(erratum, part, titles, releases),
        affected=titles,
        withdrawn=tuple(_withdrawn(snapshot, found)),
        releases=releases,
        how_to_tell=tell_now(snapshot, erratum),
        sizes="; ".join(sizes_told(snapshot, erratum)),
        symptom=erratum.symptom,
        consequence=erratum.consequence,
        way_round=WORDS[way_round(snapshot, erratum)],
        do_this=do,
        idle=is_idle(do),
        works=tuple(works_told(snapshot, erratum, do)),
        label=helped_with(snapshot, erratum, now),
        side_effects=erratum.side_effects,
        remake=mend.remake,
        take=mend.take,
        beside=mend.beside,
        files=mend.files,
        guide=mend.guide,
        fix=mend.fix,
        fixed_in=mend.fixed_in,
        fits_with=mend.fits_with,
        but=mend.but,
        again=again(table),
        instead=mend.instead,
        status=_status(erratum, now, table),
        drafted=is_draft(snapshot, erratum),
        evidence=tuple(evidence(snapshot, erratum)),
        entries=tuple(str(ref) for ref in erratum.from_entries),
        photos=tuple(photos(snapshot, erratum)),
        statements=tuple(identity(one) for one in erratum.statements),
        table=table,
        newest_entry=f"{newest_entry(snapshot, erratum):%Y-%m-%d}",
        worded=f"{worded:%Y-%m-%d}" if worded else "",
    )


def _withdrawn(snapshot: Snapshot, found: Iterable[Revision]) -> Iterator[str]:
    for one in withdrawn_among(snapshot, found):
        yield f"{one.revision}: {one.because}"


def works_told(snapshot: Snapshot, erratum: Erratum, do: str) -> Iterator[str]:
    """Give every instruction the page tells of: also of what did not hold."""
    told = (do, erratum.do_this, *(one.cure for one in returned(snapshot, erratum)))
    yield from dict.fromkeys(filter(None, told))


def means(snapshot: Snapshot, erratum: Erratum) -> str:
    """Say how bad a fault is: what it does, or no more than that is on record."""
    does = SEVERITIES[erratum.severity]
    if erratum.severity is not Severity.UNKNOWN:
        return does
    entries = entries_of(snapshot, erratum)
    done = {disposition_of(snapshot, one) for one in entries}
    if done == {Disposition.USE_AS_IS}:
        return _USED
    pieces = [snapshot.find(entry.piece, Piece) for entry in entries]
    for piece in pieces:
        if piece and piece_state(snapshot, piece) is State.REWORKED:
            return f"{piece.title} was reworked; nobody said more of it"
    return does


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
    """Give the releases that have it; the record's own word only of those unknown."""
    every = snapshot.all(Release)
    held = [r.label for r in every if applies(snapshot, erratum, r)]
    known = {r.label for r in every}
    return (*held, *(one for one in erratum.releases if one not in known))


def _status(erratum: Erratum, now: Revision | None, table: tuple[Stands, ...]) -> str:
    """Say where it stands; not that it is fixed where it came back in what fixes it."""
    for one in table:
        if now and one.revision == now.title and one.came_back:
            return f"{STATUSES[ErratumStatus.CONFIRMED]}, {one.words}"
    return STATUSES[erratum.status]
