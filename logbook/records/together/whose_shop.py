"""In whose shop a build is made, and its pieces with it: by the builder it names.

Builds of several shops meet in one record when clones are merged. What one shop's
machines do says nothing of another's.
"""

from __future__ import annotations

from collections.abc import Iterable

from logbook.records.kinds.workshop import Build, Piece
from logbook.records.together.snapshot import Snapshot

NOT_ON_RECORD = "builder not on record"


def same_builder(name: str) -> str:
    """Give a builder's name as it is compared: whatever its letters and blanks."""
    return " ".join(name.split()).casefold()


def builder_of(snapshot: Snapshot, piece: Piece | None) -> str:
    """Give whose shop made a piece; empty where its build names nobody, or is none."""
    build = snapshot.find(piece.build, Build) if piece else None
    return build.builder if build else ""


def several_shops(snapshot: Snapshot) -> bool:
    """Tell whether builds of more than one shop are on record."""
    return _several(snapshot.all(Build))


def another_shop(one: Build, other: Build) -> bool:
    """Tell whether two builds are of two builders, each by its name."""
    names = {same_builder(one.builder), same_builder(other.builder)}
    return len(names) == 2 and "" not in names


def built_by(build: Build, builds: Iterable[Build]) -> str:
    """Say in whose shop a build is made, where these builds are of several."""
    return (build.builder or NOT_ON_RECORD) if _several(builds) else ""


def _several(builds: Iterable[Build]) -> bool:
    """Tell whether builds are of several shops.

    Those that name nobody are told apart from those that do: nobody knows whose they
    are.
    """
    return len({same_builder(one.builder) for one in builds}) > 1
