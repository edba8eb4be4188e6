"""What was decided for the piece a deviation or failure is about, by the last word."""

from __future__ import annotations

from logbook.records.happenings import Deviation, Disposal, Failure
from logbook.records.snapshot import Snapshot
from logbook.records.words import Disposition
from logbook.records.workshop import Piece


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
        named = snapshot.find(one.answers) is fault
        later = (
            one.answers is None
            and piece is not None
            and one.when >= fault.when
            and snapshot.find(one.piece, Piece) is piece
        )
        if named or later:
            said = one.disposition
    return said
