"""The revisions of a part, in order; the current one; what is said of one.

Nothing is stored; each answer is worked out from the entries: by what each
revision follows, then by instant and id.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from logbook.records.kinds import made_public
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Entry, Status
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import State
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.together.labels import label_words
from logbook.records.together.once import once
from logbook.records.together.references import refers
from logbook.records.together.snapshot import Snapshot


@once
def revisions_of(snapshot: Snapshot, part: Part) -> tuple[Revision, ...]:
    """Give the revisions of a part, oldest first.

    Each comes after the one it follows, though it is dated before that one, as when
    a logbook is started long after the parts were drawn; else they go by time.
    """
    mentioned = snapshot.mentions(part, Revision)
    own = {r.id: r for r in mentioned if refers(snapshot, r.part, part)}

    def place(revision: Revision) -> tuple[datetime, int, datetime, str]:
        line = _line(revision, own)
        latest = max(each.when for each in line)
        return (latest, len(line), revision.when, revision.id)

    return tuple(sorted(own.values(), key=place))


def _line(revision: Revision, own: Mapping[str, Revision]) -> list[Revision]:
    """Give a revision, what it follows, what that follows, and so on; none twice."""
    line, passed = [revision], {revision.id}
    while (before := line[-1].follows) and before.id in own.keys() - passed:
        passed.add(before.id)
        line.append(own[before.id])
    return line


@once
def line_to(snapshot: Snapshot, revision: Revision) -> tuple[Revision, ...]:
    """Give the revisions that led to one, oldest first, itself last: what it has.

    Not those of another branch, as where two clones each opened one on the same: it has
    nothing of what they changed, unless it, or one that led to it, joins them. One that
    follows none is taken to follow the one before it.
    """
    part = snapshot.find(revision.part, Part)
    order = revisions_of(snapshot, part) if part else ()
    own = {one.id: one for one in order}
    had, to_see = {revision.id}, [revision]
    while to_see:
        last = to_see.pop()
        if last not in order:
            continue
        before = own.get(last.follows.id) if last.follows else None
        if before is None and last is not order[0]:
            before = order[order.index(last) - 1]
        joined = (own.get(ref.id) for ref in last.joins)
        for one in filter(None, (before, *joined)):
            if one.id not in had:
                had.add(one.id)
                to_see.append(one)
    return (*(o for o in order if o.id in had and o is not revision), revision)


def parts_now(snapshot: Snapshot) -> tuple[Part, ...]:
    """Give the parts the design has now: without those that were withdrawn."""
    return tuple(one for one in snapshot.all(Part) if not is_withdrawn(snapshot, one))


@once
def current_revision(snapshot: Snapshot, part: Part) -> Revision | None:
    """Give the newest revision that was not withdrawn; of a withdrawn part none."""
    return None if is_withdrawn(snapshot, part) else last_revision(snapshot, part)


def last_revision(snapshot: Snapshot, part: Part) -> Revision | None:
    """Give the newest revision that was not withdrawn, though its part was."""
    for revision in reversed(revisions_of(snapshot, part)):
        if not is_withdrawn(snapshot, revision):
            return revision
    return None


def made_to(
    snapshot: Snapshot,
    part: Part,
    piece: Piece | None = None,
    build: Build | None = None,
) -> Revision | None:
    """Give the revision a piece is made to; not on record yet, that of its build."""
    found = snapshot.find(piece.revision, Revision) if piece else None
    return found or built_to(snapshot, part, build)


def built_to(
    snapshot: Snapshot, part: Part, build: Build | None = None
) -> Revision | None:
    """Give the revision that the next piece of a part is made to in a build.

    A build of a release is made to what that release froze, until the build itself
    leads to another; else it is the current revision.
    """
    now = current_revision(snapshot, part)
    frozen = frozen_for(snapshot, part, build)
    if frozen is None or is_withdrawn(snapshot, frozen):
        return now
    if build and now and now.when >= build.when and _came_of(snapshot, now, build):
        return now
    return frozen


def frozen_for(snapshot: Snapshot, part: Part, build: Build | None) -> Revision | None:
    """Give the revision of a part that the release of a build froze, if it did."""
    of = snapshot.find(build.release, made_public.Release) if build else None
    held = revisions_in(snapshot, of) if of else ()
    own = [one for one in held if refers(snapshot, one.part, part)]
    return own[-1] if own else None


def _came_of(snapshot: Snapshot, revision: Revision, build: Build) -> bool:
    """Tell whether a revision came of a build: of its entries, or of none named."""
    named = [snapshot.find(ref) for ref in revision.because]
    reasons = [one for one in named if isinstance(one, Entry)]
    return not reasons or any(
        one.build is not None and refers(snapshot, one.build, build) for one in reasons
    )


@once
def is_withdrawn(snapshot: Snapshot, record: Record) -> bool:
    """Tell whether the last word on a revision, step, part, release is “withdrawn”."""
    said = snapshot.mentions(record, Status)
    last = [s.state for s in said if refers(snapshot, s.of, record)]
    return bool(last) and last[-1] is State.WITHDRAWN


@once
def revisions_in(
    snapshot: Snapshot, release: made_public.Release
) -> tuple[Revision, ...]:
    """Give the revisions of a release that are still on record."""
    found = (snapshot.find(ref, Revision) for ref in release.revisions)
    return tuple(revision for revision in found if revision is not None)


def shown_label(revision: Revision) -> str:
    """Give a revision's label as said on screen."""
    return label_words(revision.label)
