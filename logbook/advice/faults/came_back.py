"""Whether what a cure was to end happened again: then it did not hold.

Said of a cure that is no revision: used contact cement, put it in at 200 degrees. What
comes back in the revision that was to cure it is told by `failing`.
"""

from __future__ import annotations

import re

from logbook.advice.faults.done_in import done_to
from logbook.advice.faults.drafted import Fault, cured_by
from logbook.advice.faults.headline import headline
from logbook.advice.faults.same_fault import Same, kept_as, same_as, says_again
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Failure
from logbook.records.kinds.words import Disposition
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import disposition_of
from logbook.records.together.likeness import stems
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

_STILL = re.compile(r"(?i)\b(?:either|back|still)\b")
_WORDS = re.compile(r"[^\W\d_]+")
_CLAUSE = re.compile(r"[,;:.()]")
_AS_OFTEN = frozenset(
    {"the", "a", "an", "it", "is", "was", "new", "again", "still", "at", "on", "in"}
)
"""Words that lines of any trouble share."""
_SHARED = 2
"""Words a later line must share with a cure, or with what happened first."""


def came_back(snapshot: Snapshot, entry: Fault) -> Failure | None:
    """Give the newest failure in which an entry came back after its cure was named.

    What is sure to be it comes before what is like it only by its words. It is of the
    same part, on a piece that had the cure; it is the same as
    `same_fault` tells, or names what was to cure it, or says in the same words that it
    is again.
    """
    part = part_of(snapshot, entry)
    if not entry.cure or part is None or cured_by(snapshot, entry) is not None:
        return None
    found = [
        one
        for one in snapshot.mentions(part, Failure)
        if (one.when, one.id) > (entry.when, entry.id)
        and part_of(snapshot, one) is part
        and _has_the_cure(snapshot, entry, one)
        and again_as(snapshot, entry, one).holds
    ]
    named = [one for one in found if again_as(snapshot, entry, one) is Same.NAMED]
    return next(reversed(named or found), None)


def back_words(snapshot: Snapshot, entry: Fault, later: Failure) -> str:
    """Say that an entry came back, or seems to, and in which failure."""
    said = again_as(snapshot, entry, later).said
    return f"{said}: {headline(snapshot, later)}"


def again_as(snapshot: Snapshot, entry: Fault, later: Failure) -> Same:
    """Tell whether a later failure is an entry again, by more than its words or not."""
    ids = {entry.id}
    for fault in kept_as(snapshot, entry):
        ids |= {fault.id, *(ref.id for ref in fault.from_entries)}
    found = same_as(snapshot, ids, (entry,), headline(snapshot, entry), later)
    if found is not Same.UNLIKE:
        return found
    one, other = headline(snapshot, entry), headline(snapshot, later)
    apart = {*_AS_OFTEN, *_WORDS.findall(_names(snapshot))}
    alike = len((_first(one) & _first(other)) - apart) >= _SHARED
    if alike and says_again(later):
        return Same.NAMED
    still = alike and _STILL.search(later.title) is not None
    return Same.BY_WORDS if still or _names_the_cure(entry, later) else found


def _has_the_cure(snapshot: Snapshot, entry: Fault, later: Failure) -> bool:
    """Tell whether what failed later had the cure, as far as is on record.

    The piece it was named for has it, unless that was left as it was. Of another piece
    something has to say so: the work told of it, its settings, or the line itself.
    """
    piece = snapshot.find(later.piece, Piece)
    first = snapshot.find(entry.piece, Piece)
    if piece is None or _names_the_cure(entry, later):
        return True
    if piece is first:
        return disposition_of(snapshot, entry) not in _LEFT
    if first is not None and piece.when < entry.when:
        return False
    part = part_of(snapshot, entry)
    trouble = f"{headline(snapshot, entry)} {part.title if part else ''}"
    return done_to(snapshot, entry.cure, trouble, piece)


_LEFT = {Disposition.USE_AS_IS, Disposition.SCRAP, Disposition.RETURN}


def _names_the_cure(entry: Fault, later: Failure) -> bool:
    """Tell whether a line or its cause names what was to cure it."""
    cure = stems(entry.cure)
    whole = f"{later.title} {later.cause.said if later.cause else ''}"
    return bool(cure) and len(cure & stems(whole)) >= min(_SHARED, len(cure))


def _names(snapshot: Snapshot) -> str:
    return " ".join(part.title for part in snapshot.all(Part)).casefold()


def _first(line: str) -> frozenset[str]:
    """Give every word of the first clause: came off, the sole."""
    return frozenset(_WORDS.findall(_CLAUSE.split(line)[0].casefold()))
