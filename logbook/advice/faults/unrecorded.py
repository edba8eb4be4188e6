"""A part built in by the step that takes it, with no piece of it on record."""

from __future__ import annotations

from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Build
from logbook.records.states.pieces import pieces_of
from logbook.records.together.references import is_of, part_of
from logbook.records.together.revisions import built_to
from logbook.records.together.snapshot import Snapshot


def built_in_unrecorded(
    snapshot: Snapshot, revision: Revision
) -> tuple[StepDone, Step, Build] | None:
    """Give the newest step done that takes a part, in a build without a piece of it.

    It was done after the revision was opened and stayed done. Nothing is known of
    parts that are bought: no piece of those is recorded.
    """
    part = part_of(snapshot, revision)
    if part is None or part.source is Source.BOUGHT:
        return None
    builds = {one.build.id for one in pieces_of(snapshot, part) if one.build}
    last: dict[tuple[str, str], tuple[StepDone, Step, Build]] = {}
    for done in snapshot.all(StepDone):
        step = snapshot.find(done.step, Step)
        build = snapshot.find(done.build, Build)
        if step is None or build is None or build.id in builds:
            continue
        if built_to(snapshot, part, build) is not revision:
            continue
        if done.when >= revision.when and any(is_of(ref, part) for ref in step.uses):
            last[step.id, build.id] = done, step, build
    found = [one for one in last.values() if not one[0].undone]
    return max(found, key=lambda one: (one[0].when, one[0].id), default=None)
