"""Which revision the pieces were of that a build counted, with none of them on record.

A count names a part. Where it was made to one revision only, when it was counted or as
the release of its build has it, or somebody said to which, that is the one; else nobody
knows. Where pieces are on record these tell it, piece by piece.
"""

from __future__ import annotations

from collections.abc import Iterator

from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Count, Failure
from logbook.records.kinds.words import Blame, Source
from logbook.records.kinds.workshop import Build
from logbook.records.states.pieces import pieces_of
from logbook.records.together.references import part_of
from logbook.records.together.revisions import frozen_for, is_withdrawn, revisions_of
from logbook.records.together.snapshot import Snapshot


def counts_of(snapshot: Snapshot, part: Part) -> tuple[Count, ...]:
    """Give the last count of a part in each build; what is bought was not made."""
    if part.source is Source.BOUGHT:
        return ()
    last: dict[str, Count] = {}
    for count in snapshot.mentions(part, Count):
        if snapshot.find(count.part) is part:
            build = snapshot.find(count.build, Build)
            last[build.id if build else ""] = count
    return tuple(last.values())


def counted_revision(snapshot: Snapshot, count: Count) -> Revision | None:
    """Give the revision that counted pieces were of; None where nobody can know."""
    if count.revision is not None:
        return snapshot.find(count.revision, Revision)
    part = snapshot.find(count.part, Part)
    build = snapshot.find(count.build, Build)
    frozen = frozen_for(snapshot, part, build) if part else None
    then = [
        one
        for one in (revisions_of(snapshot, part) if part else ())
        if one.when <= count.when and not is_withdrawn(snapshot, one)
        if frozen is None or one is frozen or (build and one.when >= build.when)
    ]
    return then[0] if len(then) == 1 else None


def counted_made(
    snapshot: Snapshot, revision: Revision, build: Build | None = None
) -> Iterator[Count]:
    """Give the counts that tell that a revision was made, where no piece does."""
    part = part_of(snapshot, revision)
    for count in counts_of(snapshot, part) if part else ():
        own = snapshot.find(count.build, Build)
        if build is not None and own is not build:
            continue
        if part is None or _has_pieces(snapshot, part, own):
            continue
        made = count.used + count.scrapped + count.spare > 0
        if made and counted_revision(snapshot, count) is revision:
            yield count


def counted_and_held(snapshot: Snapshot, revision: Revision) -> bool:
    """Tell whether pieces of a revision were counted as used and have held.

    Not in a build where the part failed by its drawing, or for no known reason.
    """
    part = part_of(snapshot, revision)
    return part is not None and any(
        count.used > 0 and not _failed(snapshot, part, count)
        for count in counted_made(snapshot, revision)
    )


def _has_pieces(snapshot: Snapshot, part: Part, build: Build | None) -> bool:
    return any(snapshot.find(one.build) is build for one in pieces_of(snapshot, part))


def _failed(snapshot: Snapshot, part: Part, count: Count) -> bool:
    build = snapshot.find(count.build, Build)
    return any(
        snapshot.find(one.build) is build
        and part_of(snapshot, one) is part
        and one.met_by_others in {Blame.DRAWING, Blame.UNKNOWN}
        for one in snapshot.mentions(part, Failure)
    )
