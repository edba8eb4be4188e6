"""Cures that fail themselves: what is on record against the revision that cures."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.advice.drafted import Fault, affected_revision, cured_by
from logbook.advice.headline import headline
from logbook.records.design import Revision
from logbook.records.happenings import Deviation, Failure
from logbook.records.likeness import alike
from logbook.records.made_public import Erratum
from logbook.records.references import part_of
from logbook.records.revisions import is_withdrawn, revisions_of
from logbook.records.snapshot import Snapshot
from logbook.records.words import Blame, ErratumStatus, WayRound

DROPPED = (ErratumStatus.REJECTED, ErratumStatus.WITHDRAWN)


def against(snapshot: Snapshot, revision: Revision) -> Fault | None:
    """Give the newest fault of a revision itself that no later revision cures.

    It counts where the drawing is to blame or nobody has said who is.
    """
    found = [
        entry
        for entry in _every(snapshot)
        if entry.met_by_others in {Blame.DRAWING, Blame.UNKNOWN}
        and affected_revision(snapshot, entry) is revision
        and cured_by(snapshot, entry) is None
        and not _settled(snapshot, entry)
    ]
    return max(found, key=lambda entry: (entry.when, entry.id), default=None)


def _every(snapshot: Snapshot) -> tuple[Fault, ...]:
    return (*snapshot.all(Failure), *snapshot.all(Deviation))


def _settled(snapshot: Snapshot, entry: Fault) -> bool:
    """Tell whether a known fault saved from an entry has a cure, or was dropped."""
    return any(
        one.fixed_by is not None or one.status in DROPPED
        for one in snapshot.all(Erratum)
        if any(snapshot.find(ref) is entry for ref in one.from_entries)
    )


def but(snapshot: Snapshot, revision: Revision | None) -> str:
    """Say what stands against a cure, as “but: … (no cure yet)”; else nothing."""
    entry = against(snapshot, revision) if revision is not None else None
    if entry is None:
        return ""
    helped = f"what helped: {entry.cure}" if entry.cure else "no cure yet"
    return f"but: {headline(entry)} ({helped})"


def way_round(snapshot: Snapshot, erratum: Erratum) -> WayRound:
    """Give how far a fault can be got round: in part only where it comes again."""
    whole = erratum.way_round is WayRound.AVAILABLE
    cure = better(snapshot, erratum)
    comes = whole and cure is not None and comes_again(snapshot, erratum, cure)
    return WayRound.PARTIAL if comes else erratum.way_round


def comes_again(snapshot: Snapshot, erratum: Erratum, cure: Revision) -> bool:
    """Tell whether a cure has a fault itself that is what it was to cure."""
    entry = against(snapshot, cure)
    names = (cure.part.name,)
    return entry is not None and alike(erratum.title, entry.title, but=names)


# -- the cure that stands now ----------------------------------------------------


def better(snapshot: Snapshot, erratum: Erratum) -> Revision | None:
    """Give the revision to take: the cure, or a later one that cures the cure itself.

    None where nothing cures the fault.
    """
    cure = snapshot.find(erratum.fixed_by, Revision)
    part = part_of(snapshot, cure) if cure else None
    line = revisions_of(snapshot, part) if part else ()
    if cure is None or cure not in line:
        return cure
    at = line.index(cure)
    for number, later in enumerate(line[at + 1 :], at + 1):
        faulty = line[at:number]
        if not is_withdrawn(snapshot, later) and _cures(snapshot, later, faulty):
            cure = later
    return cure


def own_faults(snapshot: Snapshot, revision: Revision) -> tuple[str, ...]:
    """Give what went wrong with a revision itself by its drawing, cured or not."""
    return tuple(
        headline(entry)
        for entry in _every(snapshot)
        if entry.met_by_others is Blame.DRAWING
        and affected_revision(snapshot, entry) is revision
    )


def _cures(snapshot: Snapshot, revision: Revision, faulty: Sequence[Revision]) -> bool:
    """Tell whether a revision cures what went wrong with one of those before it."""
    led = (snapshot.find(ref) for ref in revision.because)
    told = (affected_revision(snapshot, one) for one in led if isinstance(one, Fault))
    saved = (
        snapshot.find(ref, Revision)
        for one in snapshot.all(Erratum)
        if snapshot.find(one.fixed_by) is revision and one.status not in DROPPED
        for ref in one.revisions
    )
    return any(one in faulty for one in (*told, *saved))
