"""Going on with a build by another release: what is made from here on is made to it."""

from __future__ import annotations

from dataclasses import replace

from logbook.errors import BadInput
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot


def go_on_by(draft: Draft, build: Build, release: Release) -> Build:
    """Draft that a build goes on by a release; pieces that are made stay what they are.

    Raises:
        BadInput: it is built by that release already.
    """
    before = draft.snapshot.find(build.release, Release)
    if before is release:
        raise BadInput(
            f"{build.title} is built by {release.title} already; accepted: another "
            "release, or another name for another build"
        )
    draft.remarks.append(goes_on_words(draft.snapshot, build, release))
    return draft.amend(replace(build, release=release.ref))


def goes_on_words(snapshot: Snapshot, build: Build, release: Release) -> str:
    """Say that a build goes on by a release, and what that leaves as it is."""
    before = snapshot.find(build.release, Release)
    after = f", no longer by {before.title}" if before else ""
    return (
        f"{build.title} goes on by {release.title}{after}: what is made from here on "
        "is made to it, what is made stays what it is"
    )
