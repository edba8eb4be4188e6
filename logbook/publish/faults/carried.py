"""What a release carries along: faults without a cure, revisions as they were."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.changes.same_drawing import drawn_as_before
from logbook.advice.changes.same_file import same_files
from logbook.advice.changes.unlisted import unlisted_in
from logbook.advice.changes.unlisted_cure import unlisted_cures
from logbook.advice.faults.applies import faults_in, undecided_in
from logbook.advice.faults.doing import do_now, is_idle
from logbook.advice.faults.failing import against
from logbook.advice.faults.headline import titled
from logbook.advice.faults.unplaced import unplaced
from logbook.advice.pieces.drawn_in_doubt import drawn_in_doubt
from logbook.counting import so_many
from logbook.records.kinds.design import Revision
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.made_public import Release
from logbook.records.together.revisions import revisions_in
from logbook.records.together.snapshot import Snapshot


def warned(snapshot: Snapshot, release: Release) -> Iterator[str]:
    """Say what somebody should know before a release goes out; it may be unsaved.

    Which faults have no cure, or no part; which nobody has said of it; which sizes no
    reading comes near; what is undrawn and what is named but on no list.
    """
    titles = [
        titled(snapshot, fault)
        for fault in faults_in(snapshot, release)
        if is_idle(do_now(snapshot, fault)) or _cure_fails(snapshot, fault.fixed_by)
    ]
    if titles:
        yield (
            f"{release.label} carries {so_many(titles, 'known fault')} without a cure: "
            + "; ".join(titles)
        )
    unsaid = [titled(snapshot, fault) for fault in undecided_in(snapshot, release)]
    if unsaid:
        yield (
            f"nobody has said whether {release.label} has "
            f"{'this' if len(unsaid) == 1 else 'these'}: {'; '.join(unsaid)}"
        )
    held = revisions_in(snapshot, release)
    yield from unplaced(snapshot)
    yield from drawn_in_doubt(snapshot, held)
    yield from drawn_as_before(snapshot, held)
    yield from same_files(snapshot, held)
    yield from unlisted_in(snapshot, held)
    yield from unlisted_cures(snapshot)


def unchanged(snapshot: Snapshot, release: Release) -> Iterator[str]:
    """Say which revisions changed since the release before; of the others, how many."""
    before = [one for one in snapshot.all(Release) if one.when < release.when]
    if before:
        held = revisions_in(snapshot, before[-1])
        now = [*revisions_in(snapshot, release)]
        changed = [one.title for one in now if one not in held]
        label, same = before[-1].label, len(now) - len(changed)
        if changed:
            yield f"revisions changed since {label}: {', '.join(changed)}"
        if same:
            yield f"revisions unchanged since {label}: {same}"


def _cure_fails(snapshot: Snapshot, cure: Ref | None) -> bool:
    found = snapshot.find(cure, Revision)
    return found is not None and against(snapshot, found) is not None
