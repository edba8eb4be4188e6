"""What a line says of a piece and nothing more: the diffuser held, lid 2 got lost.

It is said of a piece that is on record. Which one is asked where that is not plain: of
“it”, of a part with several pieces in this build, or with some in an earlier one only.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from dataclasses import replace

from logbook.plain.answers.which_it import last_parts
from logbook.plain.understanding import NO_PART, Doubt, Facts, Kind, Understanding
from logbook.records.kinds.design import Part
from logbook.records.kinds.words import State
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.states.pieces import current_build, is_on_hand, pieces_of
from logbook.records.states.pieces import piece_state as state_of
from logbook.records.together.snapshot import Snapshot

_NAME = r"(?:(?:the|my|our)\s+)?(?P<name>\S.*?)"
_SAYS = (
    (
        State.CONFIRMED,
        re.compile(
            rf"(?i)^{_NAME}\s+(?:has\s+|is\s+)?"
            r"(?:held|still\s+(?:held|holds|holding|good))"
            r"(?:\s+(?:up|fine|well|so\s+far|this\s+time|now))*"
            r"(?P<after>\s+after\s+\S+(?:\s+\S+)?)?\s*[.!]?$"
        ),
    ),
    (
        State.LOST,
        re.compile(
            rf"(?i)^(?:(?:i|we)\s+)?(?:(?:have|had|['’]ve)\s+)?lost\s+{_NAME}\s*[.!]?$"
        ),
    ),
    (
        State.LOST,
        re.compile(
            rf"(?i)^{_NAME}\s+(?:(?:has|is|was)\s+)?"
            r"(?:(?:got|been|gone|is|was)\s+lost|(?:went|gone)\s+missing)"
            r"(?:\s+(?:in|at|on|behind|under|somewhere)\b.*?)?\s*[.!]?$"
        ),
    ),
    (State.LOST, re.compile(rf"(?i)^{_NAME}\s+lost\s*[.!]?$")),
)
"""What is said of a piece, and how: the whole line, but for how long after."""
_NUMBERED = re.compile(r"^(?P<part>.*?\S)(?:\s*[-#]\s*|\s+)(?P<number>\d{1,4})$")
_IT = frozenset({"it", "this one", "that one"})
_MOST = 6


def held_to_said_of_piece(
    line: Understanding,
    snapshot: Snapshot,
    answered: Collection[str] = (),
    build: Build | None = None,
) -> Understanding:
    """Give the line as saying of a piece what became of it, where that is all it says.

    `build` is the one at hand; what was `answered` is not asked again.
    """
    if line.facts.became_of:
        return _of_which(line, snapshot, answered, build)
    for state, says in _SAYS:
        said = says.match(" ".join((line.rest or line.line).split()))
        if said is None:
            continue
        after = line.facts.hours or line.facts.minutes
        if said.groupdict().get("after") and after is None:
            continue
        named = _named(said["name"], snapshot)
        if named is None:
            continue
        part, number = named
        facts = Facts(
            part=part,
            piece=f"{part} {number}" if number else "",
            became_of=state.value,
            build=line.facts.build,
            hours=line.facts.hours,
            minutes=line.facts.minutes,
            when=line.facts.when,
            when_text=line.facts.when_text,
            hour_said=line.facts.hour_said,
        )
        told = replace(line, kind=Kind.NOTE, facts=facts, confidence=1.0, doubts=())
        told = replace(told, words={}, content=(), told_by=None)
        return _of_which(told, snapshot, answered, build)
    return line


def _named(name: str, snapshot: Snapshot) -> tuple[str, int] | None:
    """Give the part that words name, and the number of its piece, 0 where none is.

    The part is empty of “it”; None where they name neither a part nor a piece.
    """
    if name.casefold() in _IT:
        return "", 0
    pieces = snapshot.named(name, Piece)
    part = snapshot.find(pieces[0].part, Part) if len(pieces) == 1 else None
    if part is not None:
        return part.title, pieces[0].number
    parts, numbered = snapshot.named(name, Part), _NUMBERED.match(name)
    if not parts and numbered is not None:
        parts = snapshot.named(numbered["part"], Part)
        return (parts[0].title, int(numbered["number"])) if len(parts) == 1 else None
    return (parts[0].title, 0) if len(parts) == 1 else None


def _of_which(
    line: Understanding,
    snapshot: Snapshot,
    answered: Collection[str],
    build: Build | None,
) -> Understanding:
    """Give the line as of the one piece it can mean, asked about, or as a note."""
    facts = line.facts
    if not facts.part:
        question = f"which part is it that is {facts.became_of}?"
        recent = last_parts(snapshot)
        if not recent or question in answered:
            return _only_a_note(line, "")
        return replace(line, doubts=(Doubt("it", question, (*recent, NO_PART)),))
    part = next(iter(snapshot.named(facts.part, Part)), None)
    pieces = pieces_of(snapshot, part) if part else ()
    if facts.piece:
        return _of_piece(line, snapshot, pieces)
    there = [one for one in pieces if is_on_hand(snapshot, one)]
    at_hand = build or current_build(snapshot)
    here = [
        one
        for one in there
        if one.build is None or at_hand is None or one.build.id == at_hand.id
    ]
    if len(here) == 1:
        return _of(line, here[0])
    none = "" if here else " This build has none; an earlier one has."
    question = f"which {facts.part} is {facts.became_of}?{none}"
    if not there or question in answered:
        return _only_a_note(line, "" if there else f"no {facts.part} is there")
    offered = [one.title for one in reversed(here or there)][:_MOST]
    doubt = Doubt("which pieces", question, (*offered, "only a note"))
    return replace(line, doubts=(doubt,))


def _of_piece(
    line: Understanding, snapshot: Snapshot, pieces: Sequence[Piece]
) -> Understanding:
    """Give the line as of the piece it names; a note where that is not there."""
    number = int(line.facts.piece.rpartition(" ")[2])
    found = next((one for one in pieces if one.number == number), None)
    if found is None:
        return _only_a_note(line, f"there is no {line.facts.part}-{number} on record")
    if not is_on_hand(snapshot, found):
        state = state_of(snapshot, found).value
        return _only_a_note(line, f"{found.title} is {state}")
    return line


def _of(line: Understanding, piece: Piece) -> Understanding:
    named = f"{line.facts.part} {piece.number}"
    return replace(line, facts=replace(line.facts, piece=named))


def _only_a_note(line: Understanding, why: str) -> Understanding:
    """Keep the words alone, and say why nothing is said of a piece."""
    facts = replace(line.facts, piece="", became_of="")
    return replace(line, facts=facts, confidence=0.0, doubts=(), remark=why)
