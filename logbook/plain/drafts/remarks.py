"""What a drafted line does beyond its words: new pieces, sizes it contradicts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import timedelta
from itertools import islice

from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.happenings import Deviation, Disposal, Entry, Run
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.sizes.definition import dimension
from logbook.records.states.dated import dated_before
from logbook.records.states.dispositions import answered_in, of_all, undisposed
from logbook.records.together.revisions import current_revision, shown_label
from logbook.records.together.snapshot import Snapshot


def remarks(draft: Draft) -> tuple[str, ...]:
    """Give what should be seen before the line is taken, each in one phrase."""
    return (
        *draft.remarks,
        *_new_pieces(draft),
        *_which_piece(draft),
        *_drawn_otherwise(draft),
        *decides_on(draft),
        *dated_before(draft.snapshot, draft.records),
        *_said_before(draft),
    )


_LATELY = timedelta(hours=1)
_LOOKED_AT = 30


def _said_before(draft: Draft) -> Iterator[str]:
    """Say that the same words were logged in this build less than an hour before.

    It may be that once more; who typed it twice learns that both are on record.
    """
    lately = {
        (one.title.casefold(), one.build): one
        for one in islice(reversed(draft.snapshot.entries), _LOOKED_AT)
        if abs(draft.when - one.when) < _LATELY
    }
    for entry in draft.new:
        if not isinstance(entry, Entry):
            continue
        before = lately.get((entry.title.casefold(), entry.build))
        if before is not None:
            at = before.when.astimezone(draft.when.tzinfo)
            said = f"the same words are on record of {at:%H:%M} already"
            yield f"{said}; this is once more"
            return


def _new_pieces(draft: Draft) -> Iterator[str]:
    """Name a piece nobody told of before, of a part that is not new itself."""
    new: dict[tuple[str, str], list[str]] = {}
    for piece in draft.made(Piece):
        if draft.snapshot.find(piece.part, Part) is not None:
            told = piece.part.id, of_revision(draft.snapshot, piece)
            new.setdefault(told, []).append(piece.title)
    for (_, of), titles in new.items():
        span = (
            f"{titles[0]} to {titles[-1]}" if len(titles) > 2 else " and ".join(titles)
        )
        yield f"new: {span}{of}"


def of_revision(snapshot: Snapshot, piece: Piece) -> str:
    """Say of which revision a piece is, where it is not the only one of its part."""
    revision = snapshot.find(piece.revision, Revision)
    part = snapshot.find(piece.part, Part)
    now = current_revision(snapshot, part) if part else None
    only = revision is None or (revision.follows is None and revision is now)
    return "" if only or revision is None else f" of {shown_label(revision)}"


def _which_piece(draft: Draft) -> Iterator[str]:
    """Name the piece where it may not be the one that was meant: mask-1, of build 1.

    Pieces are numbered through all builds, and “mask 1” may be meant for the first of
    this one. What was measured is told of its piece wherever the part has several.
    """
    every, told = draft.snapshot.all(Piece), set()
    for entry in draft.new:
        ref = getattr(entry, "piece", None) if isinstance(entry, Entry) else None
        piece = draft.snapshot.find(ref, Piece)
        if not isinstance(entry, Entry) or piece is None or piece.id in told:
            continue
        told.add(piece.id)
        if piece.build and entry.build and piece.build.id != entry.build.id:
            yield f"{piece.title}, of {piece.build.name}"
        elif isinstance(entry, Run) and _one_of_several(piece, every):
            yield f"measured on {piece.title}"


def _one_of_several(piece: Piece, every: Iterable[Piece]) -> bool:
    return sum(one.part.id == piece.part.id for one in every) > 1


def decides_on(draft: Draft) -> Iterator[str]:
    """Name the faults that what is done with a piece answers, and those left open."""
    for entry in draft.new:
        if not isinstance(entry, Disposal):
            continue
        named = answered_in(entry)
        for ref in named:
            fault = draft.snapshot.find(ref, Entry)
            yield f"answers: {fault.title if fault else ref.name}"
        said = {ref.id for ref in named}
        had = [
            one
            for one in undisposed(draft.snapshot)
            if entry.piece and one.piece and one.piece.id == entry.piece.id
        ]
        left = [one.title for one in had if one.id not in said]
        if left and not of_all(entry):
            yield f"still open: {'; '.join(left)}"
        elif len(had) > 1 or (left and not said):
            yield f"decides on: {'; '.join(left)}"


def _drawn_otherwise(draft: Draft) -> Iterator[str]:
    """Say where a line tells another drawn size than the one on record."""
    for entry in draft.new:
        if not isinstance(entry, Deviation) or entry.wanted is None:
            continue
        item = draft.snapshot.find(entry.characteristic, Characteristic)
        part = draft.snapshot.find(entry.part, Part)
        said, name = entry.wanted, ""
        drawn = _drawn_of(draft, entry, item) if item else None
        if drawn is not None and item is not None:
            name = f"{item.title} is drawn"
        elif part is not None and _is_thickness(entry):
            drawn, name = part.thickness, f"{part.title} is made from"
        if drawn is None or drawn.metal or said.metal:
            continue
        if said.dimension == drawn.dimension and said.to(drawn.unit) != drawn.value:
            yield f"said to be drawn {said}, on record {name} {drawn}"


def _is_thickness(entry: Deviation) -> bool:
    """Tell whether a deviation is of a part's thickness, which its stock has too."""
    named = entry.characteristic.name if entry.characteristic else ""
    return named.casefold() == "thickness"


def _drawn_of(draft: Draft, entry: Deviation, item: Characteristic) -> Quantity | None:
    """Give the size as the revision of the piece draws it."""
    made = {one.id: one for one in draft.new if isinstance(one, Piece)}
    piece = made.get(entry.piece.id) if entry.piece else None
    piece = piece or draft.snapshot.find(entry.piece, Piece)
    revision = draft.snapshot.find(piece.revision, Revision) if piece else None
    return dimension(draft.snapshot, revision, item).nominal
