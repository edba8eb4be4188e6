"""What a dimension of a gap is known to be: read, or how far it may be off.

A piece that was read counts by its readings, unless one of them stands in doubt.
Before that its size is planned. Lengths in mm.
"""

from __future__ import annotations

from dataclasses import replace

from logbook.advice.gaps.contributor import Known, Unknown
from logbook.advice.gaps.places_unread import unread_places
from logbook.advice.gaps.planned import planned
from logbook.advice.ground.drawn import drawn_as
from logbook.advice.ground.lengths import Shown, shown_in
from logbook.advice.ground.register import View
from logbook.advice.pieces.in_doubt import Doubted
from logbook.advice.pieces.readings import Measured, found_of
from logbook.errors import BadInput, Problem
from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.together.revisions import built_to


def known(
    view: View,
    name: str,
    what: Characteristic,
    piece: Piece | None,
    problems: list[Problem],
    build: Build | None = None,
) -> Known | Unknown:
    """Give what a dimension of a piece, or of a part not made yet, is known to be.

    What is not made yet is drawn as `build` has it, which is that at hand if not given.
    """
    part = view.find(what.part, Part)
    assert part is not None
    revision = view.find(piece.revision, Revision) if piece else None
    if revision is None:
        revision = built_to(view, part, build or view.build)
    drawn, before = drawn_as(view, revision, what), ""
    if piece is not None:
        read, faults, slips, before = found_of(view, piece, what)
        if slips:
            said = _in_doubt(piece, what, slips)
            return Unknown(name, what, part, said, _length(drawn.nominal), doubted=True)
        problems += faults
        if read is not None:
            said = _said_of(piece, what, read, shown_in(view.project.unit, None))
            found = _read(name, what, part, piece, read, _length(drawn.nominal))
            unread, places = unread_places(view, piece, what, read)
            return replace(found, said=said, unread=unread, places=places)
    try:
        return planned(view, name, part, piece, drawn, before)
    except BadInput as refusal:
        said = f"{part.title} {what.title}: {refusal}{f'; {before}' if before else ''}"
        return Unknown(name, what, part, said, _length(drawn.nominal), before=before)


def _in_doubt(piece: Piece, what: Characteristic, slips: Doubted) -> str:
    """Say which readings stand in doubt, each with what was probably meant."""
    each = [
        f"{one.place}: {slip.question}" if one.place else slip.question
        for one, slip in slips
    ]
    return f"{piece.title} {what.title} stands in doubt: {', '.join(each)}"


def _read(
    name: str,
    what: Characteristic,
    part: Part,
    piece: Piece,
    read: Measured,
    nominal: float | None,
) -> Known:
    return Known(
        name, what, part, piece,
        read.low if nominal is None else nominal,
        read.low, read.high, 2 * read.standard, 2.0, read, "",
        (piece.ref, *read.runs),
    )  # fmt: skip


def _said_of(piece: Piece, what: Characteristic, read: Measured, shown: Shown) -> str:
    """Say how it was read: at how many places, which means of repeats count.

    What is assumed of an instrument is less than what a reading counts as, which is
    read in steps and may scatter: that is said behind it.
    """
    places = len(read.places)
    where = f"read at {places} places" if places > 1 else "read"
    means = [
        f"{shown(one.value)} {f'at {one.name} ' if one.name else ''}"
        f"is the mean of {one.repeats}"
        for one in read.places
        if one.repeats > 1
    ]
    counts = [f"in all ±{shown(2 * read.standard)}"] if read.assumed else []
    words = "; ".join((*means, *read.said, *counts))
    return f"{piece.title} {what.title} {where}: {words}"


def _length(size: Quantity | None) -> float | None:
    """Give a size in mm, None where it is no length."""
    return float(size.to("mm")) if size and size.dimension == "length" else None
