"""What was done to the piece a fault was found on, where it was reworked or repaired.

Who has the fault and reads “rework yours” reads how from here, where no cure was named:
in the words it was logged with.
"""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.faults.headline import worked_in_line
from logbook.records.kinds.happenings import Deviation, Disposal, Failure, Status
from logbook.records.kinds.words import Disposition, State
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import answered_in, disposition_of
from logbook.records.together.snapshot import Snapshot

WORK = {Disposition.REWORK: "rework yours", Disposition.REPAIR: "repair yours"}


def as_reworked(snapshot: Snapshot, entry: Deviation | Failure) -> str:
    """Say to do as was done with the piece; empty where that is not on record."""
    piece = snapshot.find(entry.piece, Piece)
    done = disposition_of(snapshot, entry)
    words = work_on(snapshot, entry)
    if piece is None or done not in WORK or not words:
        return ""
    return f"{WORK[done]}, as was done with {piece.title}: {words}"


def work_on(snapshot: Snapshot, entry: Deviation | Failure) -> str:
    """Give the words for the work on the piece of a fault; empty where none are said.

    They are its disposal's, else those of its own line, else those of the piece when it
    was reworked, where that cannot have been for another fault. A piece that failed
    since tells of no cure.
    """
    piece = snapshot.find(entry.piece, Piece)
    if piece is None or disposition_of(snapshot, entry) not in WORK:
        return ""
    if any(
        snapshot.find(one.piece) is piece and one.when > entry.when
        for one in snapshot.mentions(piece, Failure)
    ):
        return ""
    said = [*_disposed(snapshot, entry)]
    if not said and (own := worked_in_line(snapshot, entry)):
        return own.rstrip(". ")
    if not said and len([*_worked_for(snapshot, piece)]) == 1:
        said = [*_reworked(snapshot, entry, piece)]
    return said[-1].rstrip(". ") if said else ""


def _disposed(snapshot: Snapshot, entry: Deviation | Failure) -> Iterator[str]:
    for one in snapshot.mentions(entry, Disposal):
        named = any(snapshot.find(ref) is entry for ref in answered_in(one))
        if named and one.disposition in WORK and one.because:
            yield one.because


def _worked_for(snapshot: Snapshot, piece: Piece) -> Iterator[Deviation | Failure]:
    """Give the faults a piece was reworked or repaired for."""
    found: tuple[Deviation | Failure, ...] = (
        *snapshot.mentions(piece, Deviation),
        *snapshot.mentions(piece, Failure),
    )
    for one in found:
        if snapshot.find(one.piece) is piece and disposition_of(snapshot, one) in WORK:
            yield one


def _reworked(
    snapshot: Snapshot, entry: Deviation | Failure, piece: Piece
) -> Iterator[str]:
    for one in snapshot.mentions(piece, Status):
        own = snapshot.find(one.of) is piece and one.state is State.REWORKED
        if own and one.because and one.when >= entry.when:
            yield one.because
