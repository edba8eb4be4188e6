"""Whether what a cure was to end happened again: then it did not hold.

Said of a cure that is no revision: used contact cement, put it in at 200 degrees. What
comes back in the revision that was to cure it is told by `failing`.
"""

from __future__ import annotations

import re

from logbook.advice.faults.drafted import Fault, cured_by
from logbook.advice.faults.headline import headline
from logbook.records.design import Part
from logbook.records.happenings import Failure
from logbook.records.likeness import same_trouble, stems
from logbook.records.references import part_of
from logbook.records.snapshot import Snapshot
from logbook.records.workshop import Piece

_AGAIN = re.compile(
    r"(?i)\b(?:again|once more|(?:a )?(?:second|third|fourth|\d+(?:nd|rd|th)) time|"
    r"either|back|still)\b"
)
_WORDS = re.compile(r"[^\W\d_]+")
_CLAUSE = re.compile(r"[,;:.()]")
_SHARED = 2
"""Words a later line must share with a cure, or with what happened first."""


def came_back(snapshot: Snapshot, entry: Fault) -> Failure | None:
    """Give the newest failure in which an entry came back after its cure was named.

    It is of the same part, on the same piece or one made since; it tells the same
    trouble, or names what was to cure it, or says in the same words that it is again.
    """
    part = part_of(snapshot, entry)
    if not entry.cure or part is None or cured_by(snapshot, entry) is not None:
        return None
    names = [one.title for one in snapshot.all(Part)]
    found = [
        one
        for one in snapshot.mentions(part, Failure)
        if (one.when, one.id) > (entry.when, entry.id)
        and part_of(snapshot, one) is part
        and _has_the_cure(snapshot, entry, one)
        and _same_again(snapshot, entry, one, names)
    ]
    return found[-1] if found else None


def _has_the_cure(snapshot: Snapshot, entry: Fault, later: Failure) -> bool:
    """Tell whether a piece is the one that was cured, or was made since."""
    piece = snapshot.find(later.piece, Piece)
    first = snapshot.find(entry.piece, Piece)
    return piece is None or piece is first or piece.when >= entry.when


def _same_again(
    snapshot: Snapshot, entry: Fault, later: Failure, names: list[str]
) -> bool:
    one, other = headline(snapshot, entry), headline(snapshot, later)
    if same_trouble(one, other, names):
        return True
    cure = stems(entry.cure)
    whole = f"{later.title} {later.cause.said if later.cause else ''}"
    if cure and len(cure & stems(whole)) >= min(_SHARED, len(cure)):
        return True
    again = _AGAIN.search(later.title) is not None
    return again and len(_first(one) & _first(other)) >= _SHARED


def _first(line: str) -> frozenset[str]:
    """Give every word of the first clause: came off, the sole."""
    return frozenset(_WORDS.findall(_CLAUSE.split(line)[0].casefold()))
