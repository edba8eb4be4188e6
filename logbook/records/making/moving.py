"""An entry moved to another build, and the piece it is about."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.together.snapshot import Snapshot


def piece_apart(snapshot: Snapshot, entry: Entry, build: Build) -> Piece | None:
    """Give the piece an entry is about where it was made in another build than this."""
    named = getattr(entry, "piece", None)
    piece = snapshot.find(named, Piece) if isinstance(named, Ref) else None
    if piece is None or piece.build is None or snapshot.find(piece.build) == build:
        return None
    return piece


def moving_with(entry: Entry, made: Sequence[Record]) -> tuple[Entry, ...]:
    """Give what moves with an entry, itself first: `made` is what was logged with it.

    One line may become a reading and a deviation: they are of one build.
    """
    others = (one for one in made if isinstance(one, Entry) and one.id != entry.id)
    return entry, *(one for one in others if one.build == entry.build)


def goes_along(snapshot: Snapshot, moving: Sequence[Entry], piece: Piece) -> bool:
    """Tell whether a piece is on record by what moves alone, and so moves with it."""
    ids = {one.id for one in moving}
    return all(one.id in ids for one in snapshot.mentions(piece))


def stays_words(piece: Piece) -> str:
    """Say that the piece of an entry belongs to another build."""
    of = piece.build.name if piece.build else "no build"
    return f"{piece.title} stays a piece of {of}"


def moves_words(piece: Piece) -> str:
    """Say that the piece of an entry goes with it."""
    return f"{piece.title} with it: nothing else is on record of that piece"


def with_words(entry: Entry, moving: Sequence[Entry]) -> str:
    """Say what else moves with an entry; nothing where nothing does."""
    kinds = [type(one).__name__.lower() for one in moving if one.id != entry.id]
    names = {"run": "reading"}
    return " and ".join(f"the {names.get(k, k)} logged with it" for k in kinds)
