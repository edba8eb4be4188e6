"""An entry moved to another build, and the piece it is about."""

from __future__ import annotations

from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.together.snapshot import Snapshot


def piece_apart(snapshot: Snapshot, entry: Entry, build: Build) -> Piece | None:
    """Give the piece an entry is about where it was made in another build than this."""
    named = getattr(entry, "piece", None)
    piece = snapshot.find(named, Piece) if isinstance(named, Ref) else None
    if piece is None or piece.build is None or snapshot.find(piece.build) == build:
        return None
    return piece


def goes_along(snapshot: Snapshot, entry: Entry, piece: Piece) -> bool:
    """Tell whether a piece is on record by this entry alone, and so moves with it."""
    return all(one.id == entry.id for one in snapshot.mentions(piece))


def stays_words(piece: Piece) -> str:
    """Say that the piece of an entry belongs to another build."""
    of = piece.build.name if piece.build else "no build"
    return f"{piece.title} stays a piece of {of}"


def moves_words(piece: Piece) -> str:
    """Say that the piece of an entry goes with it."""
    return f"{piece.title} with it: nothing else is on record of that piece"
