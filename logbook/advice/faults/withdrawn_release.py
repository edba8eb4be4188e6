"""A release its author has withdrawn: nobody begins by it; its pages say so first."""

from __future__ import annotations

from logbook.records.kinds.happenings import Status
from logbook.records.kinds.made_public import Release
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot


def withdrawn_words(snapshot: Snapshot, release: Release) -> str:
    """Say since when a release is withdrawn, and why; empty where it is not."""
    if not is_withdrawn(snapshot, release):
        return ""
    said = [s for s in snapshot.mentions(release, Status) if s.of.id == release.id][-1]
    why = f", {said.because}" if said.because else ""
    return f"withdrawn on {said.when:%Y-%m-%d}{why}"


def recalled(snapshot: Snapshot, release: Release) -> str:
    """Say to who holds or begins by a release that it was withdrawn; else nothing."""
    gone = withdrawn_words(snapshot, release)
    return f"{release.title} was {gone}: begin nothing by it" if gone else ""


def newest_standing(snapshot: Snapshot) -> Release | None:
    """Give the newest release that was not withdrawn, None where none is left."""
    left = (one for one in snapshot.all(Release) if not is_withdrawn(snapshot, one))
    return max(left, key=lambda one: (one.when, one.id), default=None)
