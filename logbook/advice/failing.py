"""Cures that fail themselves: what is on record against the revision that cures."""

from __future__ import annotations

from logbook.advice.drafted import Fault, affected_revision, cured_by
from logbook.records.design import Revision
from logbook.records.happenings import Deviation, Failure
from logbook.records.made_public import Erratum
from logbook.records.snapshot import Snapshot
from logbook.records.words import Blame, ErratumStatus, WayRound

DROPPED = (ErratumStatus.REJECTED, ErratumStatus.WITHDRAWN)


def against(snapshot: Snapshot, revision: Revision) -> Fault | None:
    """Give the newest fault of a revision itself that no later revision cures.

    It counts where the drawing is to blame or nobody has said who is.
    """
    every: tuple[Fault, ...] = (*snapshot.all(Failure), *snapshot.all(Deviation))
    found = [
        entry
        for entry in every
        if entry.met_by_others in {Blame.DRAWING, Blame.UNKNOWN}
        and affected_revision(snapshot, entry) is revision
        and cured_by(snapshot, entry) is None
        and not _settled(snapshot, entry)
    ]
    return max(found, key=lambda entry: (entry.when, entry.id), default=None)


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
    return f"but: {entry.title} ({helped})"


def way_round(snapshot: Snapshot, erratum: Erratum) -> WayRound:
    """Give how far a fault can be got round: in part only where its cure fails."""
    cure = snapshot.find(erratum.fixed_by, Revision)
    whole = erratum.way_round is WayRound.AVAILABLE
    return WayRound.PARTIAL if whole and but(snapshot, cure) else erratum.way_round
