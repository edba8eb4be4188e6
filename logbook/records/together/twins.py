"""Records of one thing made in two clones apart: parts, builds, pieces, dimensions.

What was joined to another is `formerly` known by its id there, so that a clone which
went on naming it still finds where it went.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import fields
from typing import TypeVar

from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.ids import Ref, formula_name
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.together.names import folded
from logbook.records.together.ordered import age
from logbook.records.together.snapshot import Snapshot

R = TypeVar("R", bound=Record)


def twin_parts(snapshot: Snapshot) -> Iterator[tuple[Part, Part]]:
    """Give each part that is called as an older one, behind that one."""
    return _behind(snapshot, Part, lambda part: folded(part.title))


def twin_builds(snapshot: Snapshot) -> Iterator[tuple[Build, Build]]:
    """Give each build that is called as an older one, behind that one."""
    return _behind(snapshot, Build, lambda build: folded(build.title))


def twin_issues(snapshot: Snapshot) -> Iterator[tuple[Revision, Revision]]:
    """Give each revision that says nothing else than an older one of its label.

    A part made in two clones has its first issue twice.
    """
    for older, later in _behind(
        snapshot, Revision, lambda one: (_of(one.part), one.label)
    ):
        if all(
            getattr(older, name) == getattr(later, name) or not getattr(later, name)
            for name in _ISSUED
        ):
            yield older, later


_ISSUED = [
    one.name
    for one in fields(Revision)
    if one.name not in {"id", "title", "when", "formerly", "extra", "part", "label"}
]


def twin_pieces(snapshot: Snapshot) -> Iterator[tuple[Piece, Piece]]:
    """Give each piece that is called as an older one of its part, behind that one."""
    return _behind(
        snapshot, Piece, lambda piece: (_of(piece.part), folded(piece.title))
    )


def twin_sizes(
    snapshot: Snapshot,
) -> Iterator[tuple[Characteristic, Characteristic]]:
    """Give each dimension that has the name of an older one of its part, behind it."""
    return _behind(
        snapshot,
        Characteristic,
        lambda one: (_of(one.part), formula_name(one.title)),
    )


def joined_to(snapshot: Snapshot, ref: Ref) -> Record | None:
    """Give the record that one which is gone was joined to; None where it was not."""
    if not ref.id or ref.id in snapshot:
        return None
    found = [one for one in snapshot.bearing(ref.id) if ref.id in one.formerly]
    return found[0] if len(found) == 1 else None


def _of(part: Ref) -> str:
    return part.id or folded(part.name)


def _behind(
    snapshot: Snapshot, cls: type[R], name: Callable[[R], object]
) -> Iterator[tuple[R, R]]:
    first: dict[object, R] = {}
    for one in sorted(snapshot.all(cls), key=age):
        older = first.setdefault(name(one), one)
        if older is not one:
            yield older, one
