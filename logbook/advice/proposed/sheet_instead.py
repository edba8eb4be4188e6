"""Sheet of another thickness taken in place of the drawn one: what the part became.

“Bought 0.063 in sheet instead of 2.0 mm for the base” is a choice in words. Unless the
thickness is on record of the piece, gaps and joints go on with the drawn one.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import (
    Decision,
    Deviation,
    Entry,
    Note,
    Order,
    Reading,
)
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Blame, Disposition
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.off_drawing import deviation_of
from logbook.records.sizes.definition import characteristics_of
from logbook.records.states.pieces import is_gone, pieces_of, readings_of
from logbook.records.together.references import part_of, refers
from logbook.records.together.revisions import built_to
from logbook.records.together.snapshot import Snapshot

_SIZE = r"\d+(?:[.,]\d+)?(?:[ -]?\d*/\d+)?\s*(?:mm\b|in\b|inch\b|\"|thou\b)?"
_STOCK = r"(?:sheet|plate|board|ply|plywood|card|stock|bar)"
_INSTEAD = re.compile(
    rf"(?i)(?<![\w.,/])(?P<new>{_SIZE})\s+(?:[^\W\d_-]+\s+){{0,3}}?{_STOCK}\b.*?"
    rf"\b(?:instead of|in place of|rather than|for want of)\s+(?P<old>{_SIZE})"
)
_DONE = re.compile(
    r"(?i)\b(?:bought|got|took|used|cut|made|folded|had|came|fitted|ordered|sent)\b"
)
"""It was so; “next time 1.5 sheet instead of 2.0” is a choice of the design."""
_ALIKE = 0.01
"""Two thicknesses that differ by less (as a share) are one by two names."""
_ACCEPTS = "yes: in this build; or sold: it is what others can buy too"
_OTHERWISE = "not so thick, or not this part"
THICKNESS = "thickness"


def sheet_instead(snapshot: Snapshot) -> Iterator[Proposal]:
    """Ask of a part made of other sheet whether that is how thick its piece is."""
    for entry in snapshot.entries:
        if not isinstance(entry, Decision | Order | Note):
            continue
        found = _INSTEAD.search(entry.title) if _DONE.search(entry.title) else None
        part = part_of(snapshot, entry) if found else None
        if found is None or part is None:
            continue
        new, old = (_size(snapshot, found[name]) for name in ("new", "old"))
        drawn = _drawn(snapshot, part)
        if new is None or old is None or drawn is None or not _same(old, drawn):
            continue
        if not _same(new, drawn) and not _read(snapshot, part, entry):
            yield _asking(snapshot, entry, part, new, drawn)


def _asking(
    snapshot: Snapshot, entry: Entry, part: Part, new: Quantity, drawn: Quantity
) -> Proposal:
    build = snapshot.find(entry.build, Build)

    def take(draft: Draft, answer: str) -> None:
        sold = "sold" in answer.casefold()
        if not sold and not is_yes(answer):
            raise not_accepted("the sheet", answer, f"{_ACCEPTS}; n: {_OTHERWISE}")
        _put_on_record(draft, part, build, new, drawn, sold=sold)

    pieces = _pieces(snapshot, part, build)
    name = pieces[-1].title if pieces else f"the {part.title}"
    where = f" of {build.title}" if build and not pieces else ""
    return Proposal(
        key=f"sheet instead {entry.id}",
        topic="thickness",
        about=entry.ref,
        question=f"“{entry.title}”: is {name}{where} {new} thick, drawn {drawn}?",
        buys="gaps and joints of this build count with it, and the pages say so",
        accepts=_ACCEPTS,
        inputs=(entry.ref, part.ref),
        take=take,
        otherwise=_OTHERWISE,
    )


def _put_on_record(
    draft: Draft, part: Part, build: Build | None, new: Quantity, drawn: Quantity, *,
    sold: bool,
) -> None:  # fmt: skip
    """Log that the piece is so thick, and used so: as told, no instrument read it."""
    piece = _piece(draft, part, build)
    item = draft.characteristic(
        part, THICKNESS, drawn, since=draft.made_to(part, piece.number)
    )
    reading = Reading(id=new_id(), at=draft.when, what=item.ref, value=new)
    blame = Blame.DRAWING if sold else Blame.PIECE
    off = deviation_of(draft, part, piece, reading, blame)
    draft.add(
        replace(
            off,
            title=f"{piece.title} {THICKNESS} {new} should be {drawn}",
            wanted=drawn,
            build=piece.build,
            disposition=Disposition.USE_AS_IS,
        )
    )


def _piece(draft: Draft, part: Part, build: Build | None) -> Piece:
    """Give the piece of the build that the sheet was taken for, made if missing."""
    here = _pieces(draft.snapshot, part, build)
    if here:
        return here[-1]
    if build is None or draft.build().id == build.id:
        return draft.piece(part)
    made, to = draft.next_piece(part), built_to(draft.snapshot, part, build)
    revision = to.ref if to else made.revision
    return draft.amend(replace(made, build=build.ref, revision=revision))


def _pieces(snapshot: Snapshot, part: Part, build: Build | None) -> list[Piece]:
    return [
        one
        for one in pieces_of(snapshot, part)
        if build is not None
        and one.build is not None
        and refers(snapshot, one.build, build)
        and not is_gone(snapshot, one)
    ]


def _thickness_of(snapshot: Snapshot, part: Part) -> Characteristic | None:
    every = characteristics_of(snapshot, part)
    return next((one for one in every if one.title.casefold() == THICKNESS), None)


def _drawn(snapshot: Snapshot, part: Part) -> Quantity | None:
    """Give the thickness that is drawn of a part, or of the sheet it is cut from."""
    item = _thickness_of(snapshot, part)
    return item.nominal if item and item.nominal else part.thickness


def _read(snapshot: Snapshot, part: Part, entry: Entry) -> bool:
    """Tell whether the thickness of a piece of this build was read or told already."""
    item = _thickness_of(snapshot, part)
    pieces = _pieces(snapshot, part, snapshot.find(entry.build, Build))
    if item is None:
        return False
    told = {one.piece.id for one in snapshot.mentions(item, Deviation) if one.piece}
    return any(one.id in told or readings_of(snapshot, one, item) for one in pieces)


def _size(snapshot: Snapshot, words: str) -> Quantity | None:
    try:
        size = parse_quantity(words.strip(), snapshot.project.unit)
    except BadInput:
        return None
    return size if size.dimension == "length" and not size.metal else None


def _same(one: Quantity, other: Quantity) -> bool:
    if one.dimension != other.dimension or other.metal:
        return False
    mine, its = float(one.to("mm")), float(other.to("mm"))
    return abs(mine - its) <= _ALIKE * its
