"""What to do about a fault, done on the bench, that led to a failure of its own.

A hole drilled wider lets the cable through, and its edge cuts the cable later: the
fault is got round, and who does the same should know what came of it.
"""

from __future__ import annotations

from logbook.advice.faults.drafted import Fault, affected_revision
from logbook.advice.faults.failing import better
from logbook.advice.faults.headline import headline
from logbook.advice.faults.trying import entries_of
from logbook.records.kinds.happenings import Failure
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Blame
from logbook.records.together.likeness import stems
from logbook.records.together.names import folded
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

_OWN = {Blame.PIECE, Blame.MACHINE}
_SHARED = 2
"""Words of what was to be done that a later line must have, where it has so many."""


def came_of_it(snapshot: Snapshot, erratum: Erratum) -> Failure | None:
    """Give the newest failure that came of doing what a fault says; else None.

    It is asked of what a revision cures as well: where none does, what failed after it
    was done did not hold (`not_held`). What was written since knows of it.
    """
    if better(snapshot, erratum) is None or not erratum.do_this:
        return None
    entries = entries_of(snapshot, erratum)
    for entry in reversed(entries):
        found = _harmed(snapshot, entry, erratum.do_this)
        if found is None or found in entries:
            continue
        otherwise = folded(erratum.do_this) != folded(entry.cure)
        said = erratum.published
        if not (otherwise and said is not None and said >= found.when.date()):
            return found
    return None


def _harmed(snapshot: Snapshot, entry: Fault, do: str) -> Failure | None:
    """Give the newest later failure of its revision whose line names what was done.

    Not one of the piece or the shop alone. It names it by two words, one of which is
    none of the trouble itself: the hole was there before it was drilled.
    """
    part, revision = part_of(snapshot, entry), affected_revision(snapshot, entry)
    named = stems(do)
    own = named - stems(headline(snapshot, entry))
    for later in reversed(snapshot.mentions(part, Failure)) if part else ():
        told = stems(f"{later.title} {later.cause.said if later.cause else ''}")
        alike = len(named & told) >= min(_SHARED, len(named)) and bool(own & told)
        after = later.when > entry.when and later.met_by_others not in _OWN
        if alike and after and affected_revision(snapshot, later) is revision:
            return later
    return None
