"""What is of a build: its entries, and its pieces that are still there."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.states.pieces import is_gone
from logbook.records.together.snapshot import Snapshot


def entries_of(snapshot: Snapshot, build: Build | None) -> Sequence[Entry]:
    """Give the entries of a build, oldest first; all where there is no build.

    One that names no build is of those that were begun by then.
    """
    if build is None:
        return snapshot.entries
    own = snapshot.parted(build.id)[0]
    # Of those of no build few are older than it: from where it begins on all are its.
    begun = bisect_left(own, build.when, key=lambda one: one.when)
    if all(one.build is not None for one in own[:begun]):
        return own
    return (*(one for one in own[:begun] if one.build is not None), *own[begun:])


def arranged(
    snapshot: Snapshot, build: Build | None
) -> tuple[Sequence[Entry], Sequence[Entry]]:
    """Give the entries of a build, and those before them: of all others, by time."""
    here = entries_of(snapshot, build)
    if build is None:
        return here, ()
    own, others = snapshot.parted(build.id)
    if len(own) == len(here):
        return here, others
    kept = {one.id for one in here}
    return here, [one for one in snapshot.entries if one.id not in kept]


def is_in(piece: Piece, build: Build) -> bool:
    """Tell whether a piece is of a build, or of none."""
    return piece.build is None or piece.build.id == build.id


def pieces_here(snapshot: Snapshot, build: Build | None) -> tuple[Piece, ...]:
    """Give the pieces of a build that are still there, newest first."""
    found = []
    for piece in reversed(snapshot.all(Piece)):
        if build is not None and not is_in(piece, build):
            continue
        if not is_gone(snapshot, piece):
            found.append(piece)
    return tuple(found)
