"""Which pieces of a part a gap or a joint of a build may mean."""

from __future__ import annotations

from logbook.advice.ground.register import View
from logbook.records.kinds.design import Part
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.states.pieces import is_on_hand, pieces_of
from logbook.records.together.references import refers


def candidates(
    view: View, part: Part, place: str, build: Build | None = None
) -> tuple[Piece, ...]:
    """Give the pieces of a part that a build may mean, oldest first.

    Without one the build in hand is meant.
    """
    build = build or view.build
    found = [
        piece
        for piece in _on_hand(view, part)
        if piece.build is None or build is None or refers(view, piece.build, build)
    ]
    if place:
        at = [piece for piece in found if _same_place(piece.place, place)]
        found = at or [piece for piece in found if not piece.place]
    return tuple(found)


def _on_hand(view: View, part: Part) -> tuple[Piece, ...]:
    """Give the pieces of a part that are not scrapped, taken out or away."""

    def work() -> tuple[Piece, ...]:
        every = pieces_of(view, part)
        return tuple(one for one in every if is_on_hand(view, one))

    return view.remembered("on hand", (part,), work)


def _same_place(one: str, other: str) -> bool:
    return one.lower().replace(" ", "_") == other.lower().replace(" ", "_")
