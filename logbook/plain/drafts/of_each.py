"""A line of several pieces of a part: what it tells goes on record of each of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logbook.plain.sure.coverage import recorded_as, tells_of_each
from logbook.plain.told.so_many import EVERY, meant_of
from logbook.plain.understanding import Kind, Understanding
from logbook.records.kinds.words import Source
from logbook.records.making.drafts import Draft


def each_piece(draft: Draft, line: Understanding) -> Iterator[Understanding]:
    """Yield the line as told of each of its pieces; as it is, where it tells of one.

    Values that are as many as the pieces are one of each.
    """
    facts = line.facts
    numbers = _meant(draft, line)
    apart = line.kind is Kind.READING and any(one.piece for one in facts.readings)
    if len(numbers) < 2 or (apart and len(numbers) != len(facts.readings)):
        yield line
        return
    for at, number in enumerate(numbers):
        readings = facts.readings
        if apart:
            readings = (replace(readings[at], piece=0),)
        own = replace(
            facts,
            piece=f"{facts.part} {number}",
            pieces=(),
            so_many=0,
            readings=readings,
        )
        yield replace(line, facts=own)


def _meant(draft: Draft, line: Understanding) -> tuple[int, ...]:
    """Give the numbers of the pieces meant: those named, else those there are."""
    facts = line.facts
    told = tells_of_each(recorded_as(line), facts)
    if not told or not facts.part or not (facts.pieces or facts.so_many):
        return ()
    if facts.pieces:
        return facts.pieces
    part = draft.part(facts.part)
    if part.source is Source.BOUGHT:
        return ()  # Nobody keeps apart the screws of one bag.
    here = [piece.number for piece in draft.pieces_here(part)][::-1]
    if facts.so_many == EVERY:
        return tuple(here)
    return meant_of(here, facts.so_many, draft.next_number(part))
