"""Records of one thing made in two clones apart: pieces and dimensions.

What was joined to another is `formerly` known by its id there, so that a clone which
went on naming it still finds where it went.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeVar

from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.ids import Ref, formula_name
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Piece
from logbook.records.together.names import folded
from logbook.records.together.ordered import age
from logbook.records.together.snapshot import Snapshot

R = TypeVar("R", Piece, Characteristic)


def twin_pieces(snapshot: Snapshot) -> Iterator[tuple[Piece, Piece]]:
    """Give each piece that is called as an older one of its part, behind that one."""
    return _behind(snapshot, Piece, lambda piece: folded(piece.title))


def twin_sizes(
    snapshot: Snapshot,
) -> Iterator[tuple[Characteristic, Characteristic]]:
    """Give each dimension that has the name of an older one of its part, behind it."""
    return _behind(snapshot, Characteristic, lambda one: formula_name(one.title))


def joined_to(snapshot: Snapshot, ref: Ref) -> Record | None:
    """Give the record that one which is gone was joined to; None where it was not."""
    if not ref.id or ref.id in snapshot:
        return None
    found = [one for one in snapshot.bearing(ref.id) if ref.id in one.formerly]
    return found[0] if len(found) == 1 else None


def _behind(
    snapshot: Snapshot, cls: type[R], name: Callable[[R], str]
) -> Iterator[tuple[R, R]]:
    first: dict[tuple[str, str], R] = {}
    for one in sorted(snapshot.all(cls), key=age):
        key = (one.part.id or folded(one.part.name), name(one))
        older = first.setdefault(key, one)
        if older is not one:
            yield older, one
