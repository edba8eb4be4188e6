"""To which revision a line says a piece is made: printed gate rev A; gate-4 is rev A.

One that is on record is that; of work done to one that is not it is asked which.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import replace

from logbook.plain.understanding import Doubt, Facts, Kind, Span, Understanding, Verdict
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.workshop import Piece
from logbook.records.states.pieces import pieces_of
from logbook.records.together.revisions import revisions_of, shown_label
from logbook.records.together.snapshot import Snapshot

NOTE = "only a note"
_LABEL = r"(?:(?i:rev(?:ision)?\.?)\s*(?P<letter>[A-Z]{1,2}|[a-z]|v?\d{1,3})\b"
_SAID = re.compile(rf"(?<![\w-]){_LABEL}|(?P<first>(?i:first\s+issue))\b)")
_PIECE_IS = re.compile(
    r"(?i)^\W*[^\W\d_][\w ]*[ -]\d+\s+(?:is|was)\s+"
    r"(?:(?:now|really|in fact)\s+)?(?:(?:made|printed|cut|built|drawn|folded|turned|"
    r"drilled|milled|cast|sawn)\s+(?:(?:anew|again)\s+)?)?(?:to|by|after|from|of|a)?"
    r"\s*(?:the\s+)?(?:rev(?:ision)?\b|first\s+issue)\W*\w*\W*$"
)
"""A piece by its number, and nothing said of it but its revision."""
_WORKED = (Kind.STEP, Kind.FAILURE)


def held_to_revision(
    line: Understanding, snapshot: Snapshot, answered: Collection[str] = ()
) -> Understanding:
    """Give the line with the revision that is meant, or the question which is.

    What was `answered` is not asked again.
    """
    parts = snapshot.named(line.facts.part, Part) if line.facts.part else ()
    said = _SAID.search(line.line)
    if (
        len(parts) != 1
        or said is None
        or (line.facts.revision and line.kind in _WORKED)
    ):
        return line
    part = parts[0]
    known = {shown_label(one).casefold(): one for one in revisions_of(snapshot, part)}
    label = f"rev {said['letter']}" if said["letter"] else "first issue"
    meant = known.get(label.casefold())
    if meant is not None and _PIECE_IS.match(line.line):
        return _of_piece(line, snapshot, part, meant)
    worked = line.kind in _WORKED and line.verdict is Verdict.TAKEN
    if not worked or not _is_of(line, part, said.start()):
        return line
    if meant is not None:
        return _made_to(line, meant, Span(said.start(), said.end()))
    plain = said["letter"] is None or said["letter"].islower()
    question = f"{part.title} {label} is not on record; to which is it made?"
    if plain or line.kind is Kind.FAILURE or question in answered:
        return line
    choices = [shown_label(one) for one in reversed(revisions_of(snapshot, part))]
    return replace(
        line, doubts=(Doubt("revision", question, (*choices, NOTE)), *line.doubts)
    )


def of_revision(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the line as of the revision that was answered."""
    left = tuple(one for one in line.doubts if one is not doubt)
    label = re.sub(r"(?i)^rev\s+", "", answer.strip())
    label = "-" if label == "first issue" else label
    return replace(line, facts=replace(line.facts, revision=label), doubts=left)


def _made_to(line: Understanding, meant: Revision, at: Span) -> Understanding:
    return replace(
        line,
        facts=replace(line.facts, revision=meant.label),
        words={**line.words, "revision": (at,)},
    )


def _is_of(line: Understanding, part: Part, at: int) -> bool:
    """Tell whether a revision named at a place is of the part, not of another one."""
    if not line.facts.others and not line.facts.layers:
        return True
    before = line.line[:at].casefold().split()
    before = before[:-1] if before[-1:] in (["to"], ["by"], ["of"]) else before
    return " ".join(before).endswith(part.title.casefold())


def _of_piece(
    line: Understanding, snapshot: Snapshot, part: Part, meant: Revision
) -> Understanding:
    """Give the line as what puts a piece on record right; as it is where that is."""
    number = piece_number(line.facts) or _number_in(line.line)
    found = [one for one in pieces_of(snapshot, part) if one.number == number]
    if not found or (found[0].revision and found[0].revision.id == meant.id):
        return line
    piece: Piece = found[0]
    fixed = replace(piece, revision=meant.ref)
    return replace(line, amends=(piece, fixed), doubts=(), confidence=1.0)


def piece_number(facts: Facts) -> int | None:
    """Give the number of the piece that is named; None where none is."""
    found = re.search(r"(\d+)\s*$", facts.piece)
    return int(found[1]) if found else None


def _number_in(words: str) -> int | None:
    found = re.match(r"\D*(\d+)", words)
    return int(found[1]) if found else None
