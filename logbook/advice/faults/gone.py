"""Why a piece is not here any more: scrapped, sent back or taken out."""

from __future__ import annotations

from logbook.advice.faults.headline import headline
from logbook.records.kinds.happenings import Deviation, Disposal, Failure, Status
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Disposition
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import reason_of
from logbook.records.together.snapshot import Snapshot


def gone_because(snapshot: Snapshot, piece: Piece) -> str:
    """Give the reason in the last word on a piece; empty where none was given.

    That something of it is used as it is does not say why it is gone.
    """
    said = ""
    for one in snapshot.mentions(piece, Disposal, Failure, Deviation, Status):
        if _is_kept(one):
            continue
        if isinstance(one, Status) and snapshot.find(one.of) is piece:
            said = one.because
        elif isinstance(one, Disposal) and snapshot.find(one.piece) is piece:
            said = done_because(snapshot, one)
        elif isinstance(one, Failure | Deviation) and one.disposition:
            own = snapshot.find(one.piece) is piece
            seen = one.symptom if isinstance(one, Failure) else ""
            said = (seen or headline(snapshot, one)) if own else said
    return said


def _is_kept(one: Record) -> bool:
    return (
        isinstance(one, Disposal | Failure | Deviation)
        and one.disposition is Disposition.USE_AS_IS
    )


def done_because(snapshot: Snapshot, disposal: Disposal) -> str:
    """Give why something is done with a piece: what was said, or what it answers."""
    answered = snapshot.find(disposal.answers)
    if said := reason_of(disposal):
        return said
    if not isinstance(answered, Failure | Deviation):
        return ""
    return headline(snapshot, answered)
