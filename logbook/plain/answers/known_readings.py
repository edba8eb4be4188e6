"""A line that puts a reading on record right: 178.6 not 178.9, where 178.9 was read."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import replace

from logbook.plain.sure.unread import SO_OR_NOTE
from logbook.plain.understanding import Doubt, Kind, Understanding, Verdict
from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.states.pieces import pieces_of, readings_of
from logbook.records.together.snapshot import Snapshot

_NOT_SO = re.compile(r"(?i)\bnot\s+(?:as\s+|at\s+)?[\d.,/]+")


def held_to_readings(
    line: Understanding, snapshot: Snapshot, answered: Collection[str] = ()
) -> Understanding:
    """Give the line, asked first where what it denies is a reading on record.

    What is drawn is denied of a piece that came out otherwise; what was read, of an
    entry that is wrong. What was `answered` is not asked again.
    """
    facts = line.facts
    parts = snapshot.named(facts.part, Part) if facts.part else ()
    denies = len(facts.wanted) == 1 and _NOT_SO.search(line.line)
    told = line.verdict is Verdict.TAKEN and line.kind is Kind.READING
    if not (told and denies and len(parts) == 1):
        return line
    denied = facts.wanted[0]
    for piece in _read_so(snapshot, parts[0], denied):
        question = (
            f"{denied} is a reading of {piece} on record: to put it right, open that "
            f"entry and type the value there; or is {denied} what is wanted?"
        )
        if question not in answered:
            return replace(line, doubts=(Doubt("kind", question, SO_OR_NOTE),))
    return line


def _read_so(snapshot: Snapshot, part: Part, value: Quantity) -> Iterator[str]:
    """Go through the pieces of a part that were read so, and are not drawn so."""
    for piece in reversed(pieces_of(snapshot, part)):
        for taken in readings_of(snapshot, piece):
            read = taken.reading.value
            item = snapshot.find(taken.reading.what, Characteristic)
            drawn = item.nominal if item else None
            if _alike(read, value) and not _alike(drawn, value):
                yield piece.title
                break


def _alike(one: object, other: Quantity) -> bool:
    if not isinstance(one, Quantity) or one.metal or other.metal:
        return False
    return one.dimension == other.dimension and one.to(other.unit) == other.value
