"""Small bought things that the cure of a known fault names and no list has."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.changes.unlisted import nobody_buys, not_listed, unlisted
from logbook.advice.faults.doing import do_now, is_idle
from logbook.advice.faults.failing import DROPPED
from logbook.advice.faults.known import known_faults
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Erratum
from logbook.records.together.snapshot import Snapshot


def unlisted_by(snapshot: Snapshot, fault: Erratum) -> tuple[str, ...]:
    """Give the small things that are used to do what is to be done, and on no list."""
    part, do = snapshot.find(fault.part, Part), do_now(snapshot, fault)
    if part is None or fault.status in DROPPED or is_idle(do):
        return ()
    return not_listed(snapshot, part, do)


def unlisted_cures(snapshot: Snapshot) -> Iterator[str]:
    """Say it of each known fault; not where the revision that fixes it has it said."""
    for fault in known_faults(snapshot):
        cure = snapshot.find(fault.fixed_by, Revision)
        drawn = unlisted(snapshot, cure) if cure else ()
        missing = [one for one in unlisted_by(snapshot, fault) if one not in drawn]
        if missing and fault.part:
            what = f"what is to be done against “{fault.title}” names"
            yield nobody_buys(what, missing, fault.part.name)
