"""A release and its tag: which label still waits for one, and setting it."""

from __future__ import annotations

from pathlib import Path

from logbook.publish.release.trials import tried_words
from logbook.records.kinds.made_public import Release
from logbook.records.together.snapshot import Snapshot
from logbook.store.acts.own_tags import check_free, tag_of
from logbook.store.git.repository import Repository
from logbook.store.git.tags import tag


def untagged(
    snapshot: Snapshot, root: Path, repository: Repository, label: str
) -> Release | None:
    """Give the release saved under this label whose tag is still missing.

    Raises:
        BadInput: a tag of that name is there already.
    """
    same = [one for one in snapshot.all(Release) if one.label == label]
    name = same[-1].tag if same else ""
    check_free(repository, root, label, name or tag_of(root, label))
    return same[-1] if same else None


def set_tag(snapshot: Snapshot, repository: Repository, release: Release) -> None:
    """Tag the commit the branch stands at, which has the release in it.

    Raises:
        Refused: git refused.
    """
    said = release.summary or tried_words(snapshot, release)
    text = f"Release {release.label}\n\n{said}\n"
    tag(repository, release.tag, "HEAD", text)
