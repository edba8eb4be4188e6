"""A failure that was none, a decision not kept to: a note that says so.

It stays on record under its id, so that it is found and what names it still leads to
it; no list of faults or decisions has it any more. What it told besides its words stays
below them. A piece that it alone had put on record goes with it.
"""

from __future__ import annotations

from dataclasses import fields

from logbook.records.kinds.happenings import Decision, Deviation, Entry, Failure, Note
from logbook.records.kinds.table import kind_of
from logbook.records.kinds.words import Blame
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.left_alone import made_by_alone
from logbook.records.together.shown import shown_fact
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.codec import write_facts

Retractable = Failure | Decision | Deviation


def retract(draft: Draft, entry: Retractable, note: Note) -> Note:
    """Draft that an entry is only a note from now on, as `retracted` gives it."""
    draft.amend(note)
    piece = draft.snapshot.find(getattr(entry, "piece", None), Piece)
    if piece is not None and made_by_alone(draft.snapshot, (entry,), piece):
        draft.drop(piece)
    return note


def retracted(snapshot: Snapshot, entry: Retractable, because: str) -> Note:
    """Give the note that an entry becomes; a fact no note has is kept in words."""
    piece = snapshot.find(getattr(entry, "piece", None), Piece)
    part = entry.part or (piece.part if piece else None)
    gone = piece is not None and made_by_alone(snapshot, (entry,), piece)
    about = (*entry.about, *((piece.ref,) if piece and not gone else ()))
    common = {one.name for one in fields(Entry)} | {"kind", "part", "piece"}
    told = [
        f"- {key.replace('_', ' ')}: {shown_fact(value)}"
        for key, value in write_facts(entry).items()
        if key not in common and key not in entry.extra and value != Blame.UNKNOWN
    ]
    was = kind_of(entry).shown
    reason = f", because {because.strip()}" if because.strip() else ""
    said = [f"Retracted{reason}; it was logged as a {was}.", "\n".join(told)]
    return Note(
        id=entry.id,
        title=entry.title,
        prose="\n\n".join(filter(None, (*said, entry.prose))),
        when=entry.when,
        formerly=entry.formerly,
        build=entry.build,
        about=about,
        part=part,
        photos=entry.photos,
        extra=entry.extra,
    )
