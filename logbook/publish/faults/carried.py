"""What a release carries along: faults without a cure, revisions as they were."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.changes.older_words import older_words
from logbook.advice.changes.same_drawing import drawn_as_before
from logbook.advice.changes.same_file import same_files
from logbook.advice.changes.unlisted import unlisted_in
from logbook.advice.changes.unlisted_cure import unlisted_cures
from logbook.advice.faults.applies import faults_in
from logbook.advice.faults.doing import do_now, is_idle
from logbook.advice.faults.failing import against
from logbook.advice.faults.headline import titled
from logbook.advice.faults.looks_cured import looks_cured
from logbook.advice.faults.unplaced import unplaced
from logbook.advice.faults.unsaid import undecided_for
from logbook.advice.joints.carried_joints import joints_in_doubt
from logbook.advice.joints.unlisted_joints import unlisted_joints
from logbook.advice.pieces.drawn_in_doubt import drawn_in_doubt
from logbook.counting import so_many
from logbook.publish.faults.unsaid_material import unsaid_materials
from logbook.publish.release.readback import read_step
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.made_public import Release
from logbook.records.states.needed import not_needed_in
from logbook.records.states.statements import Form
from logbook.records.together.revisions import revisions_in
from logbook.records.together.snapshot import Snapshot


def warned(snapshot: Snapshot, release: Release) -> Iterator[str]:
    """Say what somebody should know before a release goes out; it may be unsaved.

    Which faults have no cure, or no part; which nobody has said of it; which look cured
    though nobody said so; which sizes no reading comes near; what is undrawn and what
    is named but on no list; what may be bought by older words; of which material nobody
    said that their faults' cautions hang on; which step uses what the list has none of,
    and which joint its guide will tell to check.
    """
    faults = faults_in(snapshot, release)
    open_ = [
        fault
        for fault in faults
        if is_idle(do_now(snapshot, fault)) or _cure_fails(snapshot, fault.fixed_by)
    ]
    for some, what in (
        (open_, "without a cure"),
        ([one for one in faults if one not in open_], "that it does not cure itself"),
    ):
        if titles := [titled(snapshot, fault) for fault in some]:
            yield (
                f"{release.label} carries {so_many(titles, 'known fault')} {what}: "
                + "; ".join(titles)
            )
    yield from undecided_for(snapshot, release)
    yield from looks_cured(snapshot)
    held = revisions_in(snapshot, release)
    yield from unplaced(snapshot)
    yield from drawn_in_doubt(snapshot, held)
    yield from drawn_as_before(snapshot, held)
    yield from same_files(snapshot, held)
    yield from unlisted_in(snapshot, held)
    yield from older_words(snapshot, held)
    yield from unlisted_cures(snapshot)
    yield from unsaid_materials(snapshot, faults)
    yield from unlisted_joints(snapshot)
    yield from _used_unneeded(snapshot, release)
    yield from joints_in_doubt(snapshot)


def _used_unneeded(snapshot: Snapshot, release: Release) -> Iterator[str]:
    """Say which steps use a part that the list has none of."""
    dropped = {
        part.title
        for known in not_needed_in(snapshot, release)
        if (part := snapshot.lookup(known, Part))
    }
    for one in release.statements if dropped else ():
        if one.form != Form.STEP:
            continue
        used = [
            name
            for name in read_step(one.says, one.of.name).of("uses")
            if name in dropped
        ]
        if used:
            yield f"step “{one.of.name}” uses {', '.join(used)}, the list has none"


def unchanged(snapshot: Snapshot, release: Release) -> Iterator[str]:
    """Say which parts are new since the release before, and which revisions changed.

    Of the others, how many.
    """
    before = [one for one in snapshot.all(Release) if one.when < release.when]
    if before:
        held = revisions_in(snapshot, before[-1])
        now = [*revisions_in(snapshot, release)]
        had = {one.part.id for one in held}
        others = [one for one in now if one not in held]
        changed = [one.title for one in others if one.part.id in had]
        new = [one.part.name for one in others if one.part.id not in had]
        label, same = before[-1].label, len(now) - len(others)
        if new:
            yield f"parts new since {label}: {', '.join(new)}"
        if changed:
            yield f"revisions changed since {label}: {', '.join(changed)}"
        if same:
            yield f"revisions unchanged since {label}: {same}"


def _cure_fails(snapshot: Snapshot, cure: Ref | None) -> bool:
    found = snapshot.find(cure, Revision)
    return found is not None and against(snapshot, found) is not None
