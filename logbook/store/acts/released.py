"""What of a release lies outside its record: the tag, and the folder of its pages.

Both may be in others' hands: a tag, a folder or a record that misses the others is
named.
"""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from pathlib import Path

from logbook.records.kinds.made_public import Release
from logbook.records.together.snapshot import Snapshot
from logbook.store.acts.last import PAGES
from logbook.store.acts.own_tags import label_in, own_merged
from logbook.store.acts.whose_tag import tag_command
from logbook.store.git.repository import Repository

DRAFT = "draft"
"""The folder of pages no release was made of yet."""


def tagged(repository: Repository, tag: str) -> bool:
    """Tell whether a tag stands in this clone."""
    return repository.commit_of(f"refs/tags/{tag}") is not None


def without_record(
    snapshot: Snapshot, root: Path, repository: Repository
) -> Iterator[str]:
    """Say which tags of this branch, and folders of pages, no release stands for."""
    releases = snapshot.all(Release)
    known = {release.tag for release in releases}
    for tag in own_merged(repository, root):
        if tag not in known:
            label = label_in(repository, root, tag)
            yield (
                f"tag {tag}: no release {label} is on record; "
                "accepted: its record back (git log -- as-built/releases), or, only "
                f"if nobody has it yet, git tag -d {shlex.quote(tag)}"
            )
    labels = {release.label for release in releases} | {DRAFT}
    for folder in _folders(root / PAGES):
        if folder not in labels:
            yield (
                f"{PAGES}{folder}: no release {folder} is on record; accepted: its "
                f"record back, or git rm -r {PAGES}{folder}"
            )


def without_tag(
    snapshot: Snapshot, root: Path, repository: Repository
) -> Iterator[str]:
    """Say which releases on record have no tag in this clone."""
    for release in snapshot.all(Release):
        if release.tag and not tagged(repository, release.tag):
            sets = f"logbook release {release.label}"
            if anew(release):  # its tag belongs where it was made under another label
                sets = tag_command(snapshot, root, repository, release) or sets
            yield (
                f"release {release.label}: its tag {release.tag} is not in this clone; "
                f"accepted: git fetch --tags, or to set it: {sets}"
            )


def anew(release: Release) -> bool:
    """Tell whether a release was called otherwise when it was made."""
    return any(name.startswith("release ") for name in release.formerly)


def _folders(pages: Path) -> list[str]:
    try:
        return sorted(one.name for one in pages.iterdir() if one.is_dir())
    except OSError:
        return []
