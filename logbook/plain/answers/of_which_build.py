"""Of which build the piece is that a fault befell, where this build has none yet.

“Crossbar scratched” in a build that has no crossbar may tell of the one an earlier
build made, or of one nobody has told of. A new piece counts as made and tried on every
page, so that it is put on record only where the line makes one, or where it is said.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from logbook.plain.sure.coverage import recorded_as
from logbook.plain.understanding import Doubt, Facts, Kind, Understanding, Verdict
from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.one_more import makes_one_more
from logbook.records.states.pieces import is_gone, pieces_of
from logbook.records.together.snapshot import Snapshot

_MOST = 6
"""So many pieces are offered, the newest first; more are typed."""
_A_NEW_ONE = "a new one of "


def held_to_its_build(
    line: Understanding,
    snapshot: Snapshot,
    answered: Collection[str] = (),
    build: Build | None = None,
) -> Understanding:
    """Give the line with the question which piece it befell, where that is not plain.

    `build` is the one at hand. What was `answered` is not asked again.
    """
    facts, befell = line.facts, recorded_as(line) in (Kind.FAILURE, Kind.DISPOSITION)
    told = facts.piece or facts.pieces or facts.so_many or facts.build or facts.revision
    parts = snapshot.named(facts.part, Part) if facts.part else ()
    taken = line.verdict is Verdict.TAKEN and befell
    if not taken or told or facts.beside or len(parts) != 1:
        return line
    if parts[0].source is Source.BOUGHT or makes_one_more(line.line, facts.part):
        return line
    doubt = _which(snapshot, facts, parts[0], build)
    if doubt is None or doubt.question in answered:
        return line
    return replace(line, doubts=(doubt, *line.doubts))


def _which(
    snapshot: Snapshot, facts: Facts, part: Part, build: Build | None
) -> Doubt | None:
    if not snapshot.all(Build):
        return None
    draft = Draft(snapshot, snapshot.all(Build)[-1].when, build)
    here = draft.build()
    elsewhere = [one for one in pieces_of(snapshot, part) if not is_gone(snapshot, one)]
    if not elsewhere or any(draft.pieces_here(part)):
        return None
    question = f"which {facts.part}? none of {here.title} is on record yet"
    known = (_called(one) for one in elsewhere[: -_MOST - 1 : -1])
    return Doubt("whose piece", question, (*known, f"{_A_NEW_ONE}{here.title}"))


def _called(piece: Piece) -> str:
    return f"{piece.title} of {piece.build.name}" if piece.build else piece.title


def of_this_one(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the line as of the piece that was named, or of one that is new with it."""
    left = tuple(one for one in line.doubts if one is not doubt)
    facts = line.facts
    if not answer.startswith(_A_NEW_ONE):
        number = answer.partition(" of ")[0].rpartition("-")[2]
        facts = replace(facts, piece=f"{facts.part} {number}")
    return replace(line, facts=facts, doubts=left, confidence=1.0)
