"""Whether what was named as a cure was tried and has held, in the words said before it.

A cure typed beside a failure is what somebody means to do. It helped where a piece of
the revision that brings it was made and held up, where the piece was reworked and has
not failed since, or where a piece was said to be still good afterwards.
"""

from __future__ import annotations

from logbook.advice.faults.came_back import again_as, came_back
from logbook.advice.faults.done_in import done_in
from logbook.advice.faults.drafted import Fault, cured_by
from logbook.advice.faults.headline import headline
from logbook.advice.faults.trying import NOBODY, cure_words, entries_of
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Failure, Status
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Disposition, ErratumStatus, State
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import disposition_of
from logbook.records.states.pieces import pieces_of
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

HELPED = "what helped"
NOT_TRIED = "cure named, not tried yet"
NOT_KNOWN = "cure named, not known to hold"

_REWORKED = {Disposition.REWORK, Disposition.REPAIR}
_UNTOUCHED = {Disposition.USE_AS_IS, Disposition.SCRAP, Disposition.RETURN}


def helped(snapshot: Snapshot, entry: Fault) -> str:
    """Give the words that stand before the cure of an entry."""
    if back := _back(snapshot, entry):
        return back
    cure = cured_by(snapshot, entry)
    tried = cure_words(snapshot, cure, (entry,)) if cure else ""
    if tried == "tried" or _reworked(snapshot, entry) or _still_good(snapshot, entry):
        return HELPED
    done = disposition_of(snapshot, entry)
    untouched = done in _UNTOUCHED and not _in_revision(snapshot, entry, cure)
    return NOT_TRIED if tried.endswith(NOBODY) or untouched else NOT_KNOWN


def _in_revision(snapshot: Snapshot, entry: Fault, cure: Revision | None) -> bool:
    """Tell whether the revision that is to cure did what was named, and not another."""
    if cure is None or not entry.cure:
        return cure is not None
    return done_in(snapshot, entry.cure, headline(snapshot, entry), (cure,))


def helped_with(snapshot: Snapshot, erratum: Erratum, cure: Revision | None) -> str:
    """Give the words before what a known fault says to do; `cure` fixes it now."""
    if erratum.status in {ErratumStatus.WAY_ROUND, ErratumStatus.VERIFIED}:
        return HELPED
    entries = entries_of(snapshot, erratum)
    tried = cure_words(snapshot, cure, entries) if cure else ""
    said = {helped(snapshot, entry) for entry in entries}
    back = said - {HELPED, NOT_TRIED, NOT_KNOWN}
    if back and cure is None:
        return min(back)
    if tried == "tried" or (HELPED in said and cure is None):
        return HELPED
    if tried.endswith(NOBODY) or said == {NOT_TRIED}:
        return NOT_TRIED
    return NOT_KNOWN


def _back(snapshot: Snapshot, entry: Fault) -> str:
    """Say that it came back after its cure, unless it was still good after that."""
    again = came_back(snapshot, entry)
    if again is None or _still_good(snapshot, again):
        return ""
    said = again_as(snapshot, entry, again).said
    return f"tried, and {said} (“{headline(snapshot, again)}”)"


def _reworked(snapshot: Snapshot, entry: Fault) -> bool:
    """Tell whether its piece was reworked and has not failed since."""
    piece = snapshot.find(entry.piece, Piece)
    if piece is None or disposition_of(snapshot, entry) not in _REWORKED:
        return False
    return not any(
        snapshot.find(one.piece) is piece and one.when > entry.when
        for one in snapshot.mentions(piece, Failure)
    )


def _still_good(snapshot: Snapshot, entry: Fault) -> bool:
    """Tell whether a piece of the part was said to be still good since."""
    part = part_of(snapshot, entry)
    return any(
        one.state is State.CONFIRMED
        and one.when > entry.when
        and snapshot.find(one.of) is piece
        for piece in (pieces_of(snapshot, part) if part else ())
        for one in snapshot.mentions(piece, Status)
    )
