"""Cures that fail themselves: what is on record against the revision that cures.

A cure that has another fault than the one it cures has cured it all the same: the
other is a fault of its own. Only where the same happens again is the old one back.
"""

from __future__ import annotations

from logbook.advice.faults.drafted import (
    Fault,
    affected_revision,
    cured_by,
    fault_from,
)
from logbook.advice.faults.headline import headline
from logbook.advice.faults.helped import helped
from logbook.advice.faults.same_fault import kept_as, sameness
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import Blame, Disposition, ErratumStatus
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import disposition_of
from logbook.records.states.tried import held_up
from logbook.records.together.once import once
from logbook.records.together.references import part_of
from logbook.records.together.revisions import is_withdrawn, line_to, revisions_of
from logbook.records.together.snapshot import Snapshot

DROPPED = (ErratumStatus.REJECTED, ErratumStatus.WITHDRAWN)
_COUNTS = {Blame.DRAWING, Blame.UNKNOWN}
NO_CURE = "no cure yet"
NOBODY_SAID = "nobody has said whether others meet it"


@once
def of_revision(snapshot: Snapshot, revision: Revision) -> tuple[Fault, ...]:
    """Give what went wrong with a revision itself, cured or not, oldest first.

    It counts where the drawing is to blame or nobody has said who is.
    """
    every: tuple[Fault, ...] = (*snapshot.all(Failure), *snapshot.all(Deviation))
    found = [
        entry
        for entry in every
        if entry.met_by_others in _COUNTS
        and affected_revision(snapshot, entry) is revision
        and not any(one.status in DROPPED for one in kept_as(snapshot, entry))
    ]
    return tuple(sorted(found, key=lambda entry: (entry.when, entry.id)))


def own_faults(snapshot: Snapshot, revision: Revision) -> tuple[Fault, ...]:
    """Give what is wrong with a revision by its own drawing, cured or not."""
    found = of_revision(snapshot, revision)
    return tuple(one for one in found if one.met_by_others is Blame.DRAWING)


@once
def cure_of(snapshot: Snapshot, entry: Fault) -> Revision | None:
    """Give the revision that cures an entry, by itself or by its known fault.

    Not one it was found on, or one before that: this one has it; nor one in which it
    came back.
    """
    found = affected_revision(snapshot, entry)
    part = part_of(snapshot, found) if found else None
    line = revisions_of(snapshot, part) if part else ()
    upto = line[: line.index(found) + 1] if found in line and found else ()
    named = [cured_by(snapshot, entry)]
    named += [snapshot.find(e.fixed_by, Revision) for e in kept_as(snapshot, entry)]
    cure = next((one for one in named if one and one not in upto), None)
    if cure is None:
        return None
    again = comes_again(snapshot, fault_from(snapshot, entry), cure)
    known = again is not None and again.met_by_others is Blame.DRAWING
    return None if known else cure


@once
def brought_back(snapshot: Snapshot, revision: Revision) -> Fault | None:
    """Give what came back in a revision that was to cure it; None where nothing did."""
    for ref in revision.because:
        entry = snapshot.find(ref)
        if isinstance(entry, Fault):
            again = comes_again(snapshot, fault_from(snapshot, entry), revision)
            if again is not None and again.met_by_others is Blame.DRAWING:
                return again
    return None


def in_service(snapshot: Snapshot, revision: Revision) -> Piece | None:
    """Give the newest piece of a revision that is here and has not failed."""
    every = snapshot.mentions(revision, Piece)
    own = (one for one in every if snapshot.find(one.revision) is revision)
    return next(
        (one for one in reversed(tuple(own)) if held_up(snapshot, one, revision)), None
    )


# -- what stands against a cure ----------------------------------------------------


def against(snapshot: Snapshot, revision: Revision) -> Fault | None:
    """Give the newest fault of a revision itself that no later revision cures."""
    found = of_revision(snapshot, revision)
    still = [one for one in found if cure_of(snapshot, one) is None]
    return still[-1] if still else None


def but(snapshot: Snapshot, revision: Revision | None) -> str:
    """Say what stands against a cure, as “but: … (no cure yet)”; else nothing."""
    entry = against(snapshot, revision) if revision is not None else None
    return f"but: {told_of(snapshot, entry)}" if entry else ""


def told_of(snapshot: Snapshot, entry: Fault) -> str:
    """Tell what happened, and what helped or what cured it."""
    cure = cure_of(snapshot, entry)
    if cure is not None:
        return f"{headline(snapshot, entry)} (put right in {cure.title})"
    used = disposition_of(snapshot, entry) is Disposition.USE_AS_IS
    said = f"used as it is, {NO_CURE}" if used else NO_CURE
    if entry.cure:
        said = f"{helped(snapshot, entry)}: {entry.cure}"
    whose = f"{NOBODY_SAID}; " if entry.met_by_others is Blame.UNKNOWN else ""
    return f"{headline(snapshot, entry)} ({whose}{said})"


def changed_up_to(snapshot: Snapshot, erratum: Erratum, cure: Revision) -> str:
    """Give what was changed to cure a fault, up to this revision."""
    upto = cures_up_to(snapshot, erratum, cure)
    return "; ".join(dict.fromkeys(one.changed for one in upto if one.changed))


def cures_up_to(
    snapshot: Snapshot, erratum: Erratum, cure: Revision
) -> tuple[Revision, ...]:
    """Give the revisions that were to cure a fault, up to this one."""
    line = since(snapshot, snapshot.find(erratum.fixed_by, Revision) or cure)
    upto = line_to(snapshot, cure)
    return tuple(one for one in line if one in upto) if cure in line else (cure,)


def comes_again(
    snapshot: Snapshot, erratum: Erratum, revision: Revision
) -> Fault | None:
    """Give the fault of a revision that is the same as it was to cure, if it has it.

    What is the same `same_fault` tells.
    """
    found = [
        entry
        for entry in of_revision(snapshot, revision)
        if sameness(snapshot, erratum, entry).holds
    ]
    return found[-1] if found else None


def returned(snapshot: Snapshot, erratum: Erratum) -> tuple[Fault, ...]:
    """Give what tells that a fault came back, by the drawing, in its cure or later."""
    cure = snapshot.find(erratum.fixed_by, Revision)
    return tuple(
        entry
        for revision in (since(snapshot, cure) if cure else ())
        for entry in own_faults(snapshot, revision)
        if sameness(snapshot, erratum, entry).holds
    )


def spared(erratum: Erratum, one: Revision | Release) -> bool:
    """Tell whether its author said of a revision or a release that it has it not."""
    return one.id in {ref.id for ref in erratum.not_affected}


@once
def reopened(snapshot: Snapshot, erratum: Erratum, revision: Revision) -> Fault | None:
    """Give what tells that a fault came back before a revision; None where cured since.

    A revision after one that was to cure it and did not may have it still, whatever it
    changed, until its author says that it cures it or has it not.
    """
    cure = snapshot.find(erratum.fixed_by, Revision)
    line = since(snapshot, cure) if cure else ()
    if revision not in line or spared(erratum, revision):
        return None
    left = _left(snapshot, revision, line)
    found = [one for one in left if sameness(snapshot, erratum, one).holds]
    return found[-1] if found else None


# -- the cure that stands now ------------------------------------------------------


@once
def better(snapshot: Snapshot, erratum: Erratum) -> Revision | None:
    """Give the revision to take: the newest since the cure not known to be faulty.

    Where each has a fault of its own it is the newest; not one in which what it was to
    cure came back, where there is an earlier one: first one that has a piece in
    service. Nor one since then of which nobody has said that it cures it. None where
    nothing cures it.
    """
    cure = snapshot.find(erratum.fixed_by, Revision)
    every = since(snapshot, cure) if cure else ()
    line = tuple(one for one in every if not reopened(snapshot, erratum, one)) or every
    faults = {one.id: own_faults(snapshot, one) for one in line}
    clean = [one for one in line if not faults[one.id]]
    whole = [one for one in clean if not _left(snapshot, one, line)]
    held = [one for one in line if brought_back(snapshot, one) is None]
    newest = line[-1:] if held and held[-1] is line[-1] else ()
    serving = [one for one in held if in_service(snapshot, one)]
    found = whole or clean or newest or serving or held or line
    return found[-1] if found else cure


def since(snapshot: Snapshot, cure: Revision) -> tuple[Revision, ...]:
    """Give a cure and the revisions that came of it, without those withdrawn.

    Not one that was opened beside it, in another clone: it has nothing of the cure.
    """
    part = part_of(snapshot, cure)
    line = revisions_of(snapshot, part) if part else ()
    later = line[line.index(cure) :] if cure in line else (cure,)
    return tuple(
        one
        for one in later
        if cure in line_to(snapshot, one) and not is_withdrawn(snapshot, one)
    )


def _left(
    snapshot: Snapshot, revision: Revision, line: tuple[Revision, ...]
) -> tuple[Fault, ...]:
    """Give the faults of the revisions before one that none up to it puts right."""
    had = line_to(snapshot, revision)
    upto = [one for one in line[: line.index(revision) + 1] if one in had]
    return tuple(
        entry
        for earlier in upto[:-1]
        for entry in own_faults(snapshot, earlier)
        if cure_of(snapshot, entry) not in upto
    )


def left_open(snapshot: Snapshot, erratum: Erratum) -> tuple[Fault, ...]:
    """Give what went wrong with the cure of which nobody said it of the one to take."""
    cure, now = snapshot.find(erratum.fixed_by, Revision), better(snapshot, erratum)
    line = since(snapshot, cure) if cure else ()
    return _left(snapshot, now, line) if now in line and now else ()
