"""Instructions that were followed and did not hold; how far a fault is got round."""

from __future__ import annotations

from logbook.advice.faults.came_back import again_as
from logbook.advice.faults.came_of_it import came_of_it
from logbook.advice.faults.done_in import done_in
from logbook.advice.faults.drafted import Fault
from logbook.advice.faults.failing import (
    better,
    changed_up_to,
    comes_again,
    cures_up_to,
)
from logbook.advice.faults.headline import headline
from logbook.advice.faults.helped import back_after
from logbook.advice.faults.only_drawn import must_be_remade
from logbook.advice.faults.same_fault import Same
from logbook.advice.faults.trying import entries_of
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Failure
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Blame, WayRound
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot


def way_round(snapshot: Snapshot, erratum: Erratum) -> WayRound:
    """Give how far a fault can be got round: not at all where no cure has held.

    In part only where something like it came again that nobody knows the cause of, or
    where doing what is said led to another failure. An instruction is a way round, and
    so is what a cure draws, but for a piece that can only be made again. A revision
    that did something else says nothing against it.
    """
    cure = better(snapshot, erratum)
    if (back := not_held(snapshot, erratum)) is not None:
        return WayRound.NONE if back[2] is Same.NAMED else WayRound.PARTIAL
    said = erratum.way_round
    if said is not WayRound.PARTIAL and must_be_remade(snapshot, erratum, cure):
        return WayRound.NONE
    if said is WayRound.UNKNOWN and (erratum.do_this or cure):
        said = WayRound.AVAILABLE
    if said is WayRound.AVAILABLE and came_of_it(snapshot, erratum):
        return WayRound.PARTIAL
    again = comes_again(snapshot, erratum, cure) if cure else None
    if again is None or said is not WayRound.AVAILABLE:
        return said
    if again.met_by_others is not Blame.DRAWING:
        return WayRound.PARTIAL
    known = cure is not None and (
        written_since(snapshot, erratum, again, cure)
        or not was_done(snapshot, erratum, cure)
    )
    return WayRound.AVAILABLE if known else WayRound.NONE


def not_held(
    snapshot: Snapshot, erratum: Erratum
) -> tuple[Fault, Failure, Same] | None:
    """Give what came back though what a fault says to do was done; None where nothing.

    It is a cure that no revision draws: the entry it was named in, the newest failure
    since, and how sure it is that this is the same. An instruction in other words,
    written since, is not what did not hold.
    """
    if better(snapshot, erratum) is not None:
        return None
    for entry in reversed(entries_of(snapshot, erratum)):
        again = back_after(snapshot, entry)
        if again is None:
            continue
        said = erratum.published
        otherwise = folded(erratum.do_this) != folded(entry.cure)
        if otherwise and said is not None and said >= again.when.date():
            continue
        return entry, again, again_as(snapshot, entry, again)
    return None


def was_done(snapshot: Snapshot, erratum: Erratum, cure: Revision) -> bool:
    """Tell whether a cure, or one on the way to it, did what the instruction says.

    Without an instruction it is what was drawn that was done.
    """
    told = " ".join(headline(snapshot, one) for one in entries_of(snapshot, erratum))
    line = cures_up_to(snapshot, erratum, cure)
    trouble = f"{erratum.title} {told}"
    return not erratum.do_this or done_in(snapshot, erratum.do_this, trouble, line)


def written_since(
    snapshot: Snapshot, erratum: Erratum, again: Fault, cure: Revision
) -> bool:
    """Tell whether the instruction was written after it came back, and is another.

    One that names the very revision in which it came back is not.
    """
    if folded(cure.title) in folded(erratum.do_this):
        return False
    tried = {folded(cure.changed), folded(changed_up_to(snapshot, erratum, cure))}
    tried |= {folded(entry.cure) for entry in entries_of(snapshot, erratum)}
    known = erratum.published is not None and erratum.published >= again.when.date()
    return known and bool(erratum.do_this) and folded(erratum.do_this) not in tried
