"""A known fault told to who holds an affected release: what to do, and how to tell."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields
from datetime import date

from logbook.advice.changes.unlisted_cure import unlisted_by
from logbook.advice.faults.applies import WORDS, applies
from logbook.advice.faults.as_done import instruction
from logbook.advice.faults.doing import do_now, is_idle
from logbook.advice.faults.drafted import is_draft
from logbook.advice.faults.failing import better, reopened, returned, since
from logbook.advice.faults.fixing import fixed
from logbook.advice.faults.having import having, tell_now
from logbook.advice.faults.helped import helped_with
from logbook.advice.faults.not_held import way_round
from logbook.advice.faults.telling import files_that_tell
from logbook.publish.faults.evidence import evidence, photos, what_differs
from logbook.publish.faults.how_bad import means, stop_words
from logbook.publish.faults.mending import Mending, mending
from logbook.publish.faults.sizes_told import sizes_told
from logbook.publish.faults.stands import Stands, again, by_revision
from logbook.publish.faults.told_from import newest_entry
from logbook.publish.faults.withdrawn import withdrawn_among
from logbook.records.kinds import design
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import ErratumStatus, Source
from logbook.records.making.not_met import steady_name
from logbook.records.states.statements import identity
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import whole_title

STATUSES = {
    ErratumStatus.REPORTED: "reported, not confirmed yet",
    ErratumStatus.CONFIRMED: "confirmed",
    ErratumStatus.WAY_ROUND: "confirmed, a way round is published",
    ErratumStatus.FIXED: "fixed",
    ErratumStatus.VERIFIED: "fixed, the fix is tried",
    ErratumStatus.REJECTED: "rejected",
    ErratumStatus.WITHDRAWN: "withdrawn",
}


@dataclass(frozen=True, kw_only=True)
class Named:
    """What a known fault is called, of which part, and how bad it is.

    By its `name` it is known in every edition of the page, whatever its number.
    """

    id: str
    name: str
    title: str
    part: str
    bought: bool
    severity: str
    means: str
    stop: str


@dataclass(frozen=True, kw_only=True)
class Affecting:
    """Who is affected, how to tell, what is seen and what follows.

    `from_files` are those an affected piece was made from, where the words how to tell
    do not name them.
    """

    affected: tuple[str, ...]
    withdrawn: tuple[str, ...]
    releases: tuple[str, ...]
    how_to_tell: str
    from_files: tuple[str, ...] = ()
    sizes: str
    symptom: str
    consequence: str


@dataclass(frozen=True, kw_only=True)
class Instructing:
    """What to do now; `idle` where nothing is done to a piece that is made."""

    way_round: str
    do_this: str
    idle: bool
    works: tuple[str, ...]
    label: str
    side_effects: str
    unlisted: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Resting:
    """Where a fault stands, by revision too, and what on record says so."""

    again: str
    status: str
    drafted: bool
    evidence: tuple[str, ...]
    differs: tuple[str, ...]
    entries: tuple[str, ...]
    photos: tuple[tuple[str, str], ...]
    statements: tuple[str, ...]
    table: tuple[Stands, ...]
    newest_entry: str
    worded: str


@dataclass(frozen=True, kw_only=True)
class KnownFault(Resting, Mending, Instructing, Affecting, Named):
    """A known fault as the page tells it, the last base first."""


def told(
    snapshot: Snapshot,
    erratum: Erratum,
    release: Release | None = None,
    worded: date | None = None,
) -> KnownFault:
    """Tell a fault as the page does; of one release, to who holds that.

    `worded` is the day its words last changed, where that is known.
    """
    table = tuple(by_revision(snapshot, erratum))
    who = _affecting(snapshot, erratum)
    every = (
        _named(snapshot, erratum, who),
        who,
        _instructing(snapshot, erratum),
        mending(snapshot, erratum, table, release),
        _resting(snapshot, erratum, table, worded),
    )
    return KnownFault(
        **{one.name: getattr(of, one.name) for of in every for one in fields(of)}
    )


def _named(snapshot: Snapshot, erratum: Erratum, who: Affecting) -> Named:
    part = snapshot.find(erratum.part, design.Part)
    return Named(
        id=erratum.id,
        name=steady_name(snapshot, erratum),
        title=whole_title(erratum),
        part=part.title if part else "",
        bought=part is not None and part.source is Source.BOUGHT,
        severity=erratum.severity.value,
        means=means(snapshot, erratum),
        stop=stop_words(snapshot, erratum, part, who.affected, who.releases),
    )


def _affecting(snapshot: Snapshot, erratum: Erratum) -> Affecting:
    found = having(snapshot, erratum)
    tells = tell_now(snapshot, erratum)
    return Affecting(
        affected=(*(one.title for one in found), *_in_doubt(snapshot, erratum)),
        withdrawn=tuple(_withdrawn(snapshot, found)),
        releases=_releases(snapshot, erratum),
        how_to_tell=tells,
        from_files=tuple(_from_files(snapshot, found, tells)),
        sizes="; ".join(sizes_told(snapshot, erratum)),
        symptom=erratum.symptom,
        consequence=erratum.consequence,
    )


def _in_doubt(snapshot: Snapshot, erratum: Erratum) -> Iterator[str]:
    """Name the revisions after one it came back in that nobody said cure it."""
    cure = snapshot.find(erratum.fixed_by, Revision)
    for one in since(snapshot, cure) if cure else ():
        if reopened(snapshot, erratum, one):
            yield f"perhaps {one.title}"


def _from_files(
    snapshot: Snapshot, found: tuple[Revision, ...], tells: str
) -> Iterator[str]:
    """Name the files of the affected revisions by their content, told or not before.

    Of one that a revision without the fault has as well it is said that it does not
    tell.
    """
    own, shared = files_that_tell(snapshot, found)
    for file in {one.sha256: one for one in own}.values():
        if file.sha256[:12] not in tells:
            yield f"{file.path}, SHA-256 begins {file.sha256[:12]}"
    for file, others in shared:
        if file.path not in tells:
            yield f"{file.path} does not tell, {others} has the same file"


def _instructing(snapshot: Snapshot, erratum: Erratum) -> Instructing:
    do = do_now(snapshot, erratum)
    return Instructing(
        way_round=WORDS[way_round(snapshot, erratum)],
        do_this=instruction(snapshot, erratum),
        idle=is_idle(do),
        works=tuple(_works_told(snapshot, erratum, do)),
        label=helped_with(snapshot, erratum, better(snapshot, erratum)),
        side_effects=erratum.side_effects,
        unlisted=unlisted_by(snapshot, erratum),
    )


def _resting(
    snapshot: Snapshot,
    erratum: Erratum,
    table: tuple[Stands, ...],
    worded: date | None,
) -> Resting:
    return Resting(
        again=again(table),
        status=_status(snapshot, erratum, table),
        drafted=is_draft(snapshot, erratum),
        evidence=tuple(evidence(snapshot, erratum)),
        differs=tuple(what_differs(snapshot, erratum)),
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


def _works_told(snapshot: Snapshot, erratum: Erratum, do: str) -> Iterator[str]:
    """Give every instruction the page tells of: also of what did not hold."""
    told = (do, erratum.do_this, *(one.cure for one in returned(snapshot, erratum)))
    yield from dict.fromkeys(filter(None, told))


def _releases(snapshot: Snapshot, erratum: Erratum) -> tuple[str, ...]:
    """Give the releases that have it; the record's own word only of those unknown."""
    every = snapshot.all(Release)
    held = [r.label for r in every if applies(snapshot, erratum, r)]
    known = {r.label for r in every}
    return (*held, *(one for one in erratum.releases if one not in known))


def _status(snapshot: Snapshot, erratum: Erratum, table: tuple[Stands, ...]) -> str:
    """Say where it stands; not that it is fixed where it came back in what fixes it.

    Nor that it is only reported, where its author named what fixes it.
    """
    now = better(snapshot, erratum)
    for one in table:
        if now and one.revision == now.title and one.came_back:
            return f"{STATUSES[ErratumStatus.CONFIRMED]}, {one.words}"
    found = fixed(snapshot, erratum)
    if found is not None and found.back:
        return f"{STATUSES[ErratumStatus.CONFIRMED]}, not fixed: {found.back}"
    if found is not None and erratum.status in _NOT_FIXED:
        tried = found.tried == "tried" and not found.but
        return STATUSES[ErratumStatus.VERIFIED if tried else ErratumStatus.FIXED]
    return STATUSES[erratum.status]


_NOT_FIXED = {
    ErratumStatus.REPORTED,
    ErratumStatus.CONFIRMED,
    ErratumStatus.WAY_ROUND,
}
