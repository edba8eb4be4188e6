"""A release and its tag: which label still waits for one, and setting it."""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.publish.release.frozen import TAG
from logbook.publish.release.trials import tried_words
from logbook.records.kinds.made_public import Release
from logbook.records.together.snapshot import Snapshot
from logbook.store.git.history import tag
from logbook.store.git.repository import Repository


def untagged(snapshot: Snapshot, repository: Repository, label: str) -> Release | None:
    """Give the release saved under this label whose tag is still missing.

    Raises:
        BadInput: a tag of that name is there already.
    """
    name = TAG.format(label=label)
    if repository.commit_of(f"refs/tags/{name}") is not None:
        raise BadInput(
            f"release {label}: the tag {name} is there already; accepted: a new label"
        )
    same = [one for one in snapshot.all(Release) if one.label == label]
    return same[-1] if same else None


def set_tag(snapshot: Snapshot, repository: Repository, release: Release) -> None:
    """Tag the commit the branch stands at, which has the release in it.

    Raises:
        Refused: git refused.
    """
    said = release.summary or tried_words(snapshot, release)
    text = f"Release {release.label}\n\n{said}\n"
    tag(repository, release.tag, "HEAD", text)
