"""Whether all that is said to do about a fault is what a revision draws otherwise.

The words of what changed in a drawing tell nobody what to do with a piece he holds.
"""

from __future__ import annotations

from logbook.advice.faults.trying import entries_of
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Erratum
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot


def is_only_drawn(snapshot: Snapshot, erratum: Erratum, cure: Revision | None) -> bool:
    """Tell whether an instruction is the words of what its cure changed.

    Not where somebody named them as what cures it: then they were meant to be done.
    """
    if cure is None or folded(erratum.do_this) != folded(cure.changed):
        return False
    named = {folded(one.cure) for one in entries_of(snapshot, erratum)}
    return bool(erratum.do_this) and folded(erratum.do_this) not in named


def must_be_remade(snapshot: Snapshot, erratum: Erratum, cure: Revision | None) -> bool:
    """Tell whether a piece with the fault can only be made again, by its cure."""
    drawn = not erratum.do_this or is_only_drawn(snapshot, erratum, cure)
    return cure is not None and drawn and cure.remake.casefold().startswith("yes")
