"""Parts of which nobody has said how many one unit takes.

Who buys or makes for a build reads the number on the list; of these the guide can only
say “at least” or “not stated”.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from logbook.advice.pieces.counts import tally
from logbook.records.kinds.assembling import Joint, Line
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Build
from logbook.records.states.practice import is_practice
from logbook.records.together.references import is_of, part_of
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Uncounted:
    """A part on no line, and what the builds took of it, in words."""

    part: Part
    took: str


def uncounted(snapshot: Snapshot, revisions: Iterable[Revision]) -> Iterator[Uncounted]:
    """Give the parts of these revisions that are on no line of the list.

    Not the thing itself, nor a test piece, nor what is bought for joints, where these
    tell its number.
    """
    for part in filter(None, (part_of(snapshot, one) for one in revisions)):
        listed = any(is_of(line.part, part) for line in snapshot.all(Line))
        if listed or part.assembly or is_practice(snapshot, part):
            continue
        if part.source is Source.BOUGHT and _in_joints(snapshot, part):
            continue
        yield Uncounted(part, _took(snapshot, part))


def _in_joints(snapshot: Snapshot, part: Part) -> bool:
    return any(
        layer.part is not None and is_of(layer.part, part)
        for joint in snapshot.all(Joint)
        for layer in joint.layers
    )


def _took(snapshot: Snapshot, part: Part) -> str:
    builds = snapshot.all(Build)
    found = ((build, tally(snapshot, part, build)) for build in builds)
    told = [f"{build.title}: {taken.words}" for build, taken in found if taken]
    return "; ".join(told[-1:])
