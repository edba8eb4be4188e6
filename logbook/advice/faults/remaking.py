"""Whether a part that has a fault is made again, and which revision is to be taken.

Each revision says it of the one before; who holds an older one goes past several.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.advice.faults.failing import better, since
from logbook.advice.faults.fixing import fixed
from logbook.advice.faults.trying import entries_of
from logbook.advice.faults.undrawn import undrawn
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Disposition
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import DONE, disposition_of
from logbook.records.together.references import part_of
from logbook.records.together.revisions import is_withdrawn, line_to, revisions_of
from logbook.records.together.snapshot import Snapshot

_MENDED = {Disposition.REWORK, Disposition.REPAIR, Disposition.USE_AS_IS}

NOT_YET = "not yet: nothing on record has held"


def remake_words(
    snapshot: Snapshot, erratum: Erratum, held: Revision | None = None
) -> str:
    """Say whether to make the part again, for who holds `held`.

    As the revisions on the way to the one to take say, and what its builder did: who
    reads yes should know that the piece it was found on was reworked, not made again.
    Empty where nobody has said it; not yet where the fault came back in that one, or
    where it has the very files that are held.
    """
    now = fixed(snapshot, erratum)
    if now is not None and now.back:
        return NOT_YET
    said = joined_words(_way(snapshot, erratum, held))
    if now is not None and said not in {"", "no"}:
        affected = [snapshot.find(ref, Revision) for ref in erratum.revisions]
        for one in (held,) if held else affected:
            if one and (same := undrawn(snapshot, now.revision, one)):
                return f"not yet: {same}"
    if said != "yes":
        return said
    if remade(snapshot, erratum) is not None:
        part = snapshot.find(erratum.part, Part)
        return f"yes, if your {part.title} has it" if part else said
    for entry in entries_of(snapshot, erratum):
        done = disposition_of(snapshot, entry)
        piece = snapshot.find(entry.piece, Piece)
        if done in _MENDED and piece is not None:
            return f"yes, if yours has it; {piece.title} itself was {DONE[done]}"
    return said


def remade(snapshot: Snapshot, erratum: Erratum) -> Part | None:
    """Give the part that is made again against a fault, where it is another than its.

    A lamp that comes wider stays; the seat that was drawn too narrow for it does not.
    """
    now = better(snapshot, erratum)
    part = part_of(snapshot, now) if now else None
    return None if part is snapshot.find(erratum.part, Part) else part


def _way(
    snapshot: Snapshot, erratum: Erratum, held: Revision | None
) -> Sequence[Revision]:
    """Give the revisions from the one held to the one to take; else from the cure."""
    now = better(snapshot, erratum)
    part = part_of(snapshot, now) if now else None
    if now is None or part is None:
        return ()
    line = revisions_of(snapshot, part)
    cure = snapshot.find(erratum.fixed_by, Revision)
    known = held in line and now in line and line.index(held) < line.index(now)
    if known and held is not None:
        upto = line_to(snapshot, now)
        past = line[line.index(held) + 1 : line.index(now) + 1]
        return [o for o in past if o in upto and not is_withdrawn(snapshot, o)]
    after = since(snapshot, cure) if cure else ()
    return after[: after.index(now) + 1] if now in after else (now,)


def joined_words(way: Sequence[Revision]) -> str:
    """Put together what revisions say that follow each other: one yes decides."""
    said = {one.title: one.remake.strip(" .") for one in way}
    words = {text.casefold() for text in said.values()}
    if "yes" in words:
        return "yes"
    more = [text for text in said.values() if text and text.casefold() != "no"]
    more = [*more[:1], *(text.removeprefix("only if ") for text in more[1:])]
    unsaid = [title for title, text in said.items() if not text]
    if more or not unsaid:
        return ", or ".join(dict.fromkeys(more)) or ("no" if said else "")
    if words == {""}:
        return ""
    return f"nobody has said it of {', '.join(unsaid)}; for the others no"
