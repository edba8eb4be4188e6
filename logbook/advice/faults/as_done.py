"""What to do about a known fault, as somebody is told it who was not there.

A cure is often typed as what was done: “drilled it to 6.5”. Printed as an instruction
it would read as if it were done already.
"""

from __future__ import annotations

import re

from logbook.advice.faults.doing import do_now
from logbook.advice.faults.trying import entries_of
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Disposition
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.states.dispositions import disposition_of
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot

_DONE = re.compile(
    r"(?i)(?!(?:embed|shed|shred|sled)\b)"
    r"(?:\w+[^\We]ed|(?:re)?made|took|bent|(?:re)?drew|bought|(?:re)?built)\b"
)
"""The first word of what is told as done; “feed” and “need” are none."""
_WORKED_ON = {Disposition.REWORK, Disposition.REPAIR}
_TO_IT = re.compile(r"(?i)\w+\s+(?:it|them|this|that|the|a|an|both|all|my|our)\b")
"""What a past tense was done to: “drilled it”; “slotted holes” are only so called."""
AS_DONE = "as was done"
AS_SAID = "as was said"
"""How an instruction begins that is told as done, and nobody said to which piece."""


def instruction(snapshot: Snapshot, erratum: Erratum) -> str:
    """Say what to do now; of what is told as done, in which build it was.

    What its author wrote for others stands as he wrote it.
    """
    do, said = do_now(snapshot, erratum), erratum.do_this.rstrip(". ")
    if not said or not do.startswith(said) or not _DONE.match(said):
        return do
    for entry in entries_of(snapshot, erratum):
        piece = snapshot.find(entry.piece, Piece)
        own = folded(entry.cure) == folded(said)
        if own and piece and disposition_of(snapshot, entry) in _WORKED_ON:
            rest = do.removeprefix(said).rstrip(". ")
            build = snapshot.find(entry.build, Build)
            where = f"in {build.title}" if build else f"with {piece.title}"
            return f"{AS_DONE} {where}: “{said}”{rest}"
        if own and _TO_IT.match(said):
            return f"{AS_SAID}: “{said}”{do.removeprefix(said).rstrip('. ')}"
    return do
