"""What of a release lies outside its record: the tag, and the folder of its pages.

Both may be in others' hands, so an act that made a release is not taken back while
its tag stands, and a tag, a folder or a record that misses the others is named.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from logbook.errors import Refused
from logbook.records.made_public import Release
from logbook.records.snapshot import Snapshot
from logbook.store.acts import PAGES, Act
from logbook.store.git.history import merged_tags
from logbook.store.git.repository import Repository

TAGS = "as-built/"
DRAFT = "draft"
"""The folder of pages no release was made of yet."""


def refuse_released(snapshot: Snapshot, repository: Repository, act: Act) -> None:
    """Refuse to take an act back that made a release whose tag stands.

    Raises:
        Refused: it did.
    """
    made = {touched.path for touched in act.files if not touched.before}
    for release in snapshot.all(Release):
        if snapshot.path(release) not in made:
            continue
        if not release.tag or not _tagged(repository, release.tag):
            continue
        raise Refused(
            f"the last act made release {release.label}: its tag {release.tag} and its "
            "pages may be in others' hands, so it is not taken back; accepted: tell "
            "what is wrong with it (logbook erratum), withdraw a revision in it "
            "(logbook status REVISION withdrawn), or, only if nobody has it yet, "
            f"git tag -d {release.tag} and then logbook undo"
        )


def _tagged(repository: Repository, tag: str) -> bool:
    return repository.commit_of(f"refs/tags/{tag}") is not None


def without_record(
    snapshot: Snapshot, root: Path, repository: Repository
) -> Iterator[str]:
    """Say which tags of this branch, and folders of pages, no release stands for."""
    releases = snapshot.all(Release)
    known = {release.tag for release in releases}
    for tag in merged_tags(repository, TAGS):
        if tag not in known:
            yield (
                f"tag {tag}: no release {tag.removeprefix(TAGS)} is on record; "
                "accepted: its record back (git log -- as-built/releases), or, only "
                f"if nobody has it yet, git tag -d {tag}"
            )
    labels = {release.label for release in releases} | {DRAFT}
    for folder in _folders(root / PAGES):
        if folder not in labels:
            yield (
                f"{PAGES}{folder}: no release {folder} is on record; accepted: its "
                f"record back, or git rm -r {PAGES}{folder}"
            )


def without_tag(snapshot: Snapshot, repository: Repository) -> Iterator[str]:
    """Say which releases on record have no tag in this clone."""
    for release in snapshot.all(Release):
        if release.tag and not _tagged(repository, release.tag):
            yield (
                f"release {release.label}: its tag {release.tag} is not in this clone; "
                f"accepted: git fetch --tags, or logbook release {release.label} to "
                "set it"
            )


def _folders(pages: Path) -> list[str]:
    try:
        return sorted(one.name for one in pages.iterdir() if one.is_dir())
    except OSError:
        return []
