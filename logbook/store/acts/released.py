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
from logbook.store.acts.whose_tag import tag_command, tagged_as
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
            if amended := tagged_as(snapshot, root, repository, tag):
                yield _as_it_went_out(snapshot, amended, f"tag {tag}", f'tag = "{tag}"')
                continue
            yield (
                f"tag {tag}: no release {label} is on record; "
                "accepted: its record back (git log -- as-built/releases), or, only "
                f"if nobody has it yet, git tag -d {shlex.quote(tag)}"
            )
    labels = {release.label for release in releases} | {DRAFT}
    made_as = {label_in(repository, root, one.tag): one for one in releases if one.tag}
    for folder in _folders(root / PAGES):
        amended = made_as.get(folder)
        if folder not in labels and amended and not anew(amended):
            label = f'label = "{folder}"'
            yield _as_it_went_out(snapshot, amended, f"{PAGES}{folder}", label)
        elif folder not in labels:
            yield (
                f"{PAGES}{folder}: no release {folder} is on record; accepted: its "
                f"record back, or git rm -r {PAGES}{folder}"
            )


def _as_it_went_out(snapshot: Snapshot, release: Release, what: str, fact: str) -> str:
    """Say that a release was amended after it went out, and how that is taken back."""
    return (
        f"{what}: it is of release {release.label}, whose record was changed since; "
        f"what went out stays as it is; accepted: {fact} again in "
        f"{snapshot.path(release)}"
    )


def without_tag(
    snapshot: Snapshot, root: Path, repository: Repository
) -> Iterator[str]:
    """Say which releases on record have no tag in this clone."""
    known = {release.tag for release in snapshot.all(Release)}
    strange = (tag for tag in own_merged(repository, root) if tag not in known)
    amended = [tagged_as(snapshot, root, repository, tag) for tag in strange]
    for release in snapshot.all(Release):
        if release in amended:  # its tag is there, under the name it had
            continue
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
