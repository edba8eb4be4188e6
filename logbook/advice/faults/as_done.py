"""What to do about a known fault, as somebody is told it who was not there.

A cure is often typed as what was done: “drilled it to 6.5”. Printed as an instruction
it would read as if it were done already.
"""

from __future__ import annotations

from logbook.advice.faults.doing import do_now
from logbook.advice.faults.drafted import Fault
from logbook.advice.faults.headline import came_of_cure
from logbook.advice.faults.told_as_done import is_told_done, says_to_what
from logbook.advice.faults.trying import entries_of
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Disposition
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.states.dispositions import disposition_of
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot

_WORKED_ON = {Disposition.REWORK, Disposition.REPAIR}
AS_DONE = "as was done"
AS_SAID = "as was said"
"""How an instruction begins that is told as done, and nobody said to which piece."""


def instruction(snapshot: Snapshot, erratum: Erratum) -> str:
    """Say what to do now; of what is told as done, in which build it was.

    What its line says came of it stands behind. What its author wrote for others stands
    as he wrote it.
    """
    do, said = do_now(snapshot, erratum), erratum.do_this.rstrip(". ")
    if not said or not do.startswith(said):
        return do
    own = (
        one for one in entries_of(snapshot, erratum) if folded(one.cure) == folded(said)
    )
    for entry in own:
        rest = f"{_came(snapshot, entry)}{do.removeprefix(said).rstrip('. ')}"
        piece = snapshot.find(entry.piece, Piece)
        if not is_told_done(said):
            return f"{said}{rest}" if _came(snapshot, entry) else do
        if piece and disposition_of(snapshot, entry) in _WORKED_ON:
            build = snapshot.find(entry.build, Build)
            where = f"in {build.title}" if build else f"with {piece.title}"
            return f"{AS_DONE} {where}: “{said}”{rest}"
        if says_to_what(said):
            return f"{AS_SAID}: “{said}”{rest}"
    return do


def _came(snapshot: Snapshot, entry: Fault) -> str:
    """Give what was said then of what came of a cure, in brackets."""
    came = came_of_cure(snapshot, entry)
    return f" (said of it: “{', '.join(came)}”)" if came else ""
