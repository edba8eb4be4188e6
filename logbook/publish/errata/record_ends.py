"""Where a record ends: what is not in it nobody hears of who asks it of what he holds.

Who has checked out an old release, or unpacked one, has its faults as they were known
then. What is newer in the same repository is named, else where newer may be found.
"""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from pathlib import Path

from logbook.counting import so_many
from logbook.records.kinds.made_public import Release
from logbook.records.together.ordered import age
from logbook.records.together.snapshot import Snapshot
from logbook.store.acts.own_tags import label_in, own_unmerged
from logbook.store.git.history import branches_ahead
from logbook.store.git.repository import Repository


def released_since(
    snapshot: Snapshot, root: Path, repository: Repository
) -> Iterator[str]:
    """Say that this repository has a release which this record has not."""
    if _unknown_tags(snapshot, root, repository):
        newer = newer_state(snapshot, root, repository)
        yield f"this record is not the newest: {newer}"


def _unknown_tags(snapshot: Snapshot, root: Path, repository: Repository) -> list[str]:
    known = {release.tag for release in snapshot.all(Release)}
    return [one for one in own_unmerged(repository, root) if one not in known]


def newer_state(snapshot: Snapshot, root: Path, repository: Repository) -> str:
    """Say what of this repository a record does not have; empty where all is in it.

    With the git command that brings it, as it is typed.
    """
    ahead = branches_ahead(repository)
    tags = _unknown_tags(snapshot, root, repository)
    if not ahead and not tags:
        return ""
    labels = [label_in(repository, root, one) for one in tags]
    named = [f"release {label}" for label in labels[:3]]
    named += [f"{len(labels) - 3} more releases"] * (len(labels) > 3)
    named += [f"{name} ({so_many(count, 'commit')} more)" for name, count in ahead[:1]]
    return f"in this repository and not in it: {', '.join(named)}; to have it: " + (
        _brings(repository, ahead[0][0] if ahead else "", tags)
    )


def _brings(repository: Repository, branch: str, tags: list[str]) -> str:
    """Give the git command that brings what is newer."""
    local = repository.commit_of(f"refs/heads/{branch}") is not None
    if branch and local:
        words = ["git", "switch", branch]
    elif branch and repository.branch() is not None:
        words = ["git", "merge", "--ff-only", branch]
    elif branch:
        words = ["git", "switch", "--detach", branch]
    else:
        words = ["git", "switch", "--detach", tags[0]]
    return shlex.join(words)


def ends_words(snapshot: Snapshot, root: Path, repository: Repository) -> str:
    """Say with which day and release a record ends, and where what is newer may be."""
    last = max(snapshot, key=age, default=None)
    if last is None:
        return ""
    release = max(snapshot.all(Release), key=age, default=None)
    said = f"this record ends {last.when.astimezone():%Y-%m-%d}"
    said += f", its newest release is {release.label}" if release else ""
    if newer := newer_state(snapshot, root, repository):
        return f"{said}; {newer}"
    place = snapshot.project.published_at or "the place you got it from"
    return f"{said}; what was found since is not in it: look at {place}"
