"""The pieces that a line of work says were made, so many at once."""

from __future__ import annotations

from logbook.plain.drafts.work import draft_step
from logbook.plain.sure.made_several import made_several
from logbook.plain.understanding import Understanding
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft


def draft_work(draft: Draft, line: Understanding) -> Draft:
    """Log work done, and put each piece on record where it says how many were made."""
    draft_step(draft, line)
    many = made_several(line)
    part = draft.part(line.facts.part) if many else None
    if part is None or part.source is Source.BOUGHT:
        return draft
    own = [one for one in draft.made(Piece) if one.part.id == part.id]
    for _ in range(many - len(own)):
        draft.next_piece(part)
    return draft
