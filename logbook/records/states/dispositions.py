"""What was decided on deviations and failures, and on which of them nobody has."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from datetime import datetime

from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Deviation, Disposal, Failure
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Blame, Disposition, State
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.definition import WITHIN, definition
from logbook.records.sizes.limits_held import as_held
from logbook.records.sizes.verdict_word import judged
from logbook.records.states.pieces import last_word
from logbook.records.states.read_now import found_now
from logbook.records.together.snapshot import Snapshot


def disposition_of(
    snapshot: Snapshot, fault: Deviation | Failure
) -> Disposition | None:
    """Give what is done with the piece of a fault; None where nobody decided.

    The last disposal that answers the fault counts, or, where it names no fault, a
    later one of the piece; else what the entry itself says.
    """
    piece = snapshot.find(fault.piece, Piece)
    said = fault.disposition
    for one in snapshot.all(Disposal):
        named = any(snapshot.find(ref) is fault for ref in answered_in(one))
        later = (
            of_all(one)
            and piece is not None
            and one.when >= fault.when
            and snapshot.find(one.piece, Piece) is piece
        )
        if named or later:
            said = one.disposition
    return said


def answered_in(disposal: Disposal) -> tuple[Ref, ...]:
    """Give the faults that a disposal names."""
    first = (disposal.answers,) if disposal.answers else ()
    return (*first, *disposal.answers_too)


def of_all(disposal: Disposal) -> bool:
    """Tell whether a disposal decides on all that was wrong with its piece."""
    return not answered_in(disposal) and not disposal.answers_none


_REASON = re.compile(r"(?i)(?:\bbecause\b|\bsince\b|[,;:–])\s*(?P<why>.*\w.*)")


DONE = {
    Disposition.USE_AS_IS: "used as it is",
    Disposition.REWORK: "reworked",
    Disposition.REPAIR: "repaired",
    Disposition.SCRAP: "scrapped",
    Disposition.RETURN: "sent back",
}
"""What was done with a piece, as it is told afterwards."""


def reason_of(disposal: Disposal) -> str:
    """Give why something is done with a piece: as said by itself, or in its line."""
    if disposal.because:
        return disposal.because
    made = disposal.title.startswith(f"{disposal.disposition.value}: ")
    found = None if made else _REASON.search(disposal.title)
    why = found["why"].strip().rstrip(".") if found else ""
    return "" if why.casefold() == disposal.disposition.value else why


def undisposed(snapshot: Snapshot) -> tuple[Deviation | Failure, ...]:
    """Give the deviations and failures nobody has decided on yet.

    What is done with a piece decides on the faults it names; where it names none, and
    was not done for another reason, on every fault the piece had by then. Of a
    piece that was scrapped for another fault nothing is left to decide, nor of a size
    that is within by the reading as it was put right.
    """
    disposals = snapshot.all(Disposal)
    answered = {
        found.id
        for disposal in disposals
        for ref in answered_in(disposal)
        if (found := snapshot.find(ref)) is not None
    }
    faults: tuple[Deviation | Failure, ...] = (
        *snapshot.all(Deviation),
        *snapshot.all(Failure),
    )
    done = _last_done(snapshot, disposals)
    return tuple(
        fault
        for fault in faults
        if fault.disposition is None
        and fault.id not in answered
        and not (done and _settled(snapshot, fault, done))
        and not _is_scrapped(snapshot, fault)
        and not (isinstance(fault, Deviation) and _is_within(snapshot, fault))
    )


def _is_within(snapshot: Snapshot, fault: Deviation) -> bool:
    """Tell whether what was found is within the limits its piece is held to."""
    found = found_now(snapshot, fault)
    piece = snapshot.find(fault.piece, Piece)
    revision = snapshot.find(piece.revision, Revision) if piece else None
    item = snapshot.find(fault.characteristic)
    if found is None or found.metal or revision is None or item is None:
        return False
    drawn = next(
        (one for one in definition(snapshot, revision) if one.characteristic is item),
        None,
    )
    held = as_held(snapshot, drawn) if drawn else None
    return held is not None and judged(held, found, None) == WITHIN


def _last_done(
    snapshot: Snapshot, disposals: Iterable[Disposal]
) -> dict[str, datetime]:
    """Give when something was last done with each piece that names no fault."""
    found: dict[str, datetime] = {}
    for disposal in disposals:
        piece = snapshot.find(disposal.piece, Piece)
        if piece is not None and of_all(disposal):
            found[piece.id] = max(disposal.when, found.get(piece.id, disposal.when))
    return found


def _settled(
    snapshot: Snapshot, fault: Deviation | Failure, done: Mapping[str, datetime]
) -> bool:
    """Tell whether something was done with its piece at that moment or later."""
    piece = snapshot.find(fault.piece, Piece)
    last = done.get(piece.id) if piece is not None else None
    return last is not None and last >= fault.when


def _is_scrapped(snapshot: Snapshot, fault: Deviation | Failure) -> bool:
    """Tell whether its piece was scrapped for another fault: its entry says so."""
    piece = snapshot.find(fault.piece, Piece)
    state, by = last_word(snapshot, piece) if piece else (State.MADE, None)
    return state is State.SCRAPPED and isinstance(by, Failure | Deviation)


def unanswered(snapshot: Snapshot) -> tuple[Deviation | Failure, ...]:
    """Give the deviations and failures not known to be met by others, or not."""
    faults: tuple[Deviation | Failure, ...] = (
        *snapshot.all(Deviation),
        *snapshot.all(Failure),
    )
    return tuple(fault for fault in faults if fault.met_by_others is Blame.UNKNOWN)
