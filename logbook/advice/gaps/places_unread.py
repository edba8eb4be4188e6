"""The named places of a size at which a piece was not read: what is known of it less.

Where the drawing names no places, those at which other pieces of the part were read
are meant: a piece that is read at one of four corners is not known yet.
"""

from __future__ import annotations

from functools import partial

from logbook.advice.ground.register import View
from logbook.advice.pieces.piece_facts import facts_of
from logbook.advice.pieces.readings import Measured
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.workshop import Piece
from logbook.records.states.pieces import pieces_of

MOST_PIECES = 20
"""Pieces looked back at for the places a size is read at."""


def unread_places(
    view: View, piece: Piece, what: Characteristic, read: Measured
) -> tuple[tuple[str, ...], int]:
    """Give the places that were not read, and how many there are."""
    places = what.places or _in_use(view, what, _named(view, piece, what))
    found = {place.name for place in read.places}
    found |= {name.partition(", ")[0] for name in found}  # less the state it was in
    return tuple(one for one in places if _plain(one) not in found), len(places)


def _in_use(view: View, what: Characteristic, own: tuple[str, ...]) -> tuple[str, ...]:
    """Give the most places at which a piece was read, that shares one with these.

    Other names than these are another way to measure. Of a piece that was read at no
    named place nothing is shared: whatever was used counts.
    """
    part = view.find(what.part, Part)
    if part is None:
        return own
    every = view.remembered("places", (part, what), partial(_all, view, part, what))
    mine = set(map(_plain, own))
    alike = [one for one in every if not mine or mine & set(map(_plain, one))]
    return max(alike, key=len, default=own)


def _all(view: View, part: Part, what: Characteristic) -> tuple[tuple[str, ...], ...]:
    """Give the places of each piece that was read at several, the newest last."""
    pieces = pieces_of(view, part)[-MOST_PIECES:]
    found = (_named(view, piece, what) for piece in pieces)
    return tuple(one for one in found if len(one) > 1)


def _named(view: View, piece: Piece, what: Characteristic) -> tuple[str, ...]:
    told = facts_of(view, piece).told(what)
    every = {_plain(one.place): one.place for one, _ in told if one.place}
    return tuple(every.values())


def _plain(place: str) -> str:
    return " ".join(place.lower().split())
