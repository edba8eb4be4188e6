"""What is on record of how pieces of a revision held: that they were made says nothing.

A piece that failed is on record, whatever a later one does; that one holds is only
where somebody said that it is still good, or read it after use.
"""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.faults.failing import of_revision
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Failure, Run, Status
from logbook.records.kinds.words import Disposition, State
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import DONE, disposition_of
from logbook.records.states.tried import held_up
from logbook.records.together.snapshot import Snapshot

_KEPT = {None, Disposition.USE_AS_IS}


def did_not_hold(snapshot: Snapshot, revision: Revision) -> str:
    """Name the pieces of a revision that failed or were off, and what became of them.

    Empty where none is on record; what was off and used as it is did hold.
    """
    return ", ".join(dict.fromkeys(_fell(snapshot, revision)))


def _fell(snapshot: Snapshot, revision: Revision) -> Iterator[str]:
    for entry in of_revision(snapshot, revision):
        piece, done = snapshot.find(entry.piece, Piece), disposition_of(snapshot, entry)
        failed = isinstance(entry, Failure)
        if not failed and done in _KEPT:
            continue
        became = "failed" if done is None or done in _KEPT else f"was {DONE[done]}"
        yield f"{piece.title if piece else 'a piece'} {became}"


def said_to_hold(snapshot: Snapshot, revision: Revision) -> bool:
    """Tell whether a piece that speaks for a revision was said to be still good.

    A reading taken after a time in use says it too.
    """
    return any(
        said_good(snapshot, piece)
        for piece in snapshot.mentions(revision, Piece)
        if snapshot.find(piece.revision) is revision
        and held_up(snapshot, piece, revision)
    )


def said_good(snapshot: Snapshot, piece: Piece) -> bool:
    """Tell whether a piece was said to be still good, or read after a time in use."""
    said = any(
        snapshot.find(one.of) is piece and one.state is State.CONFIRMED
        for one in snapshot.mentions(piece, Status)
    )
    return said or any(
        reading.after
        for run in snapshot.mentions(piece, Run)
        if snapshot.find(run.piece) is piece
        for reading in run.readings
    )
