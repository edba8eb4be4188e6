"""Revisions that change a size or shape while their drawing stays the one before."""

from __future__ import annotations

import shlex
from collections.abc import Iterable, Iterator

from logbook.advice.faults.undrawn import undrawn
from logbook.advice.ground.same_content import same_content
from logbook.records.kinds.design import Change, DesignFile, Revision
from logbook.records.kinds.made_public import Release
from logbook.records.together.snapshot import Snapshot

_NOT_IN_OUTLINE = "thick"
"""A flat drawing does not hold the thickness of its sheet."""


def drawn_as_before(snapshot: Snapshot, revisions: Iterable[Revision]) -> Iterator[str]:
    """Say which of these change a size or the shape in an unchanged drawing.

    Whoever makes the part from the file gets the size of the revision before.
    """
    for revision in revisions:
        before = snapshot.find(revision.follows, Revision)
        sizes = [_told(one) for one in revision.changes if _redraws(one)]
        same = list(_same(revision, before)) if before is not None else []
        if before is not None and sizes and same and len(same) == len(revision.files):
            yield (
                f"{revision.title} changes {', '.join(sizes)}, but "
                f"{', '.join(same)} still as {before.title} had it: who makes the part "
                f"from the file gets the size before; {_then(snapshot, revision)}"
            )
        elif said := undrawn(snapshot, revision):
            yield f"{said}; {_then(snapshot, revision)}"


def _then(snapshot: Snapshot, revision: Revision) -> str:
    """Say how the drawing gets on record; a released revision stays as it was."""
    out = {ref.id for one in snapshot.all(Release) for ref in one.revisions}
    so = "--changed “…”" if revision.id in out else "--redrawn"
    command = f"logbook revise {shlex.quote(revision.part.name)} {so}"
    return f"draw it, then: {command} (of another file: --file PATH too)"


def _redraws(change: Change) -> bool:
    if change.was is None or change.becomes is None or change.to_suit:
        return False
    named = change.characteristic.name.casefold()
    moved = change.was.to(change.becomes.unit) != change.becomes.value
    return moved and _NOT_IN_OUTLINE not in named


def _told(change: Change) -> str:
    return f"{change.characteristic.name} from {change.was} to {change.becomes}"


def _same(revision: Revision, before: Revision) -> Iterator[str]:
    held = {file.path: file for file in before.files}
    for file in revision.files:
        if _is_held(file, held.get(file.path)):
            yield file.path


def _is_held(file: DesignFile, earlier: DesignFile | None) -> bool:
    return earlier is not None and same_content(file, earlier)
