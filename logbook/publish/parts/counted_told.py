"""How many pieces of a part each build took, as examples, in words."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.advice.pieces.counts import Tally, tally
from logbook.counting import so_many
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.states.counted import counted_revision, counts_of
from logbook.records.states.pieces import pieces_of
from logbook.records.states.tried import held_up
from logbook.records.together.revisions import shown_label
from logbook.records.together.snapshot import Snapshot


def counted(snapshot: Snapshot, part: Part, revision: Revision | None) -> str:
    """Say how many pieces of a part each build took, and what those were made to.

    Of many builds one is told, and the others summed up: the newest that made this
    revision, before all one whose piece has held, as it is what it was tried in. Where
    none made it it is the newest that has any.
    """
    found = [
        (build, taken)
        for build in snapshot.all(Build)
        if (taken := tally(snapshot, part, build)) is not None
    ]
    if len(found) <= _BUILDS_EACH:
        told = found
    else:
        own = [one for one in found if revision in _made_to(snapshot, part, one[0])]
        speaks = [one for one in own if _held_in(snapshot, revision, one[0])]
        told = (speaks or own or found)[-1:]
    said = [_taken(snapshot, part, revision, *one) for one in told]
    if others := [taken for one, taken in found if all(one is not b for b, _ in told)]:
        said.append(f"{so_many(others, 'other build')}: {_summed(others)}")
    return "; ".join(said)


_BUILDS_EACH = 3
"""Builds whose pieces are counted each by itself."""


def _taken(
    snapshot: Snapshot,
    part: Part,
    revision: Revision | None,
    build: Build,
    taken: Tally,
) -> str:
    made, comma, rest = taken.words.partition(", ")
    others = _to_others(snapshot, part, build, revision)
    return f"{build.title}: {made}{others}{comma}{rest}"


def _summed(each: Sequence[Tally]) -> str:
    """Say what several builds took together; those that were counted were made too."""
    return Tally(
        sum(one.used for one in each),
        sum(one.scrapped for one in each),
        sum(one.spare for one in each),
        counted=all(one.counted for one in each),
        bought=all(one.bought for one in each),
        refs=(),
        lost=sum(one.lost for one in each),
    ).words


def _held_in(snapshot: Snapshot, revision: Revision | None, build: Build) -> bool:
    """Tell whether a piece of a revision that was made in a build has held."""
    return revision is not None and any(
        snapshot.find(piece.revision) is revision
        and snapshot.find(piece.build) is build
        and held_up(snapshot, piece, revision)
        for piece in snapshot.mentions(revision, Piece)
    )


def _made_to(snapshot: Snapshot, part: Part, build: Build) -> list[Revision]:
    """Give the revision of each piece of a part in a build."""
    pieces = [p for p in pieces_of(snapshot, part) if snapshot.find(p.build) is build]
    made = (snapshot.find(piece.revision, Revision) for piece in pieces)
    return [one for one in made if one]


def _to_others(
    snapshot: Snapshot, part: Part, build: Build, revision: Revision | None
) -> str:
    made = _made_to(snapshot, part, build)
    if not made:
        return _counted_to(snapshot, part, build, revision)
    labels = [shown_label(one) for one in made if one is not revision]
    counts = {label: labels.count(label) for label in labels}
    if len(counts) == 1 and len(labels) == len(made):
        return f" (to {labels[0]})"
    said = ", ".join(f"{count} to {label}" for label, count in counts.items())
    return f" ({said})" if said else ""


def _counted_to(
    snapshot: Snapshot, part: Part, build: Build, revision: Revision | None
) -> str:
    """Say to which revision pieces were made that were only counted."""
    if part.source is Source.BOUGHT:
        return ""
    for count in counts_of(snapshot, part):
        own = snapshot.find(count.build)
        if own is build or own is None:
            made = counted_revision(snapshot, count)
            if made is None:
                return " (to which revision nobody said)"
            return "" if made is revision else f" (to {shown_label(made)})"
    return ""
