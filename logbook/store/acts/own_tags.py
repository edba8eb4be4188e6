"""How the tags of one design's releases are called, and which of those here are its.

Several designs may lie in one repository, which has one row of tags. A design whose
`as-built/` is not at its top names its folder in them (`as-built/lamp/1.0`). A release
tagged without it keeps its tag, which its record holds; whose such a tag is, where the
record is not here any more, the commit that it stands at tells.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from logbook.errors import BadInput
from logbook.records.kinds.place import FOLDER
from logbook.store.git.history import files_saying
from logbook.store.git.repository import Repository
from logbook.store.git.tags import (
    commit_behind,
    merged_tags,
    tags_below,
    unmerged_tags,
)

_BARE = f"{FOLDER}/"
_UNFIT = re.compile(r"[\x00-\x20\x7f~^:?*\[\\]+|@(?=\{)|\.(?=\.|/|$)|(?<=/)\.|^\.")
"""What git takes in no name of a tag, but a folder may have."""


def tag_of(root: Path, label: str) -> str:
    """Give the name of the tag of a release of the design in this folder."""
    return own_prefix(Repository.find(root), root) + label


def own_prefix(repository: Repository | None, root: Path) -> str:
    """Give what stands before the label in the names of a design's tags."""
    folder = "." if repository is None else repository.relative(root)
    if folder == ".":
        return _BARE
    fit = _UNFIT.sub("-", folder)
    return f"{_BARE}{re.sub(r'[.]lock(?=/|$)', '-lock', fit)}/"


def label_in(repository: Repository, root: Path, tag: str) -> str:
    """Give the label in the name of a tag of this design."""
    own = own_prefix(repository, root)
    return tag.removeprefix(own if tag.startswith(own) else _BARE)


def own_merged(repository: Repository, root: Path) -> tuple[str, ...]:
    """Give the tags of this design's releases whose commits this branch holds."""
    return _own(merged_tags, repository, root)


def own_unmerged(repository: Repository, root: Path) -> tuple[str, ...]:
    """Give the tags of this design's releases that this branch lacks, newest first."""
    return _own(unmerged_tags, repository, root)


def _own(
    listed: Callable[[Repository, str], tuple[str, ...]],
    repository: Repository,
    root: Path,
) -> tuple[str, ...]:
    own = own_prefix(repository, root)
    found = []
    for tag in listed(repository, _BARE):
        bare = "/" not in tag.removeprefix(_BARE)
        named_so = tag.startswith(own) and "/" not in tag.removeprefix(own)
        if not bare and not named_so:
            continue
        folders = designs_tagged(repository, tag) if bare else ()
        if repository.relative(root) in folders or (named_so and not folders):
            found.append(tag)
    return tuple(found)


def designs_tagged(repository: Repository, tag: str) -> tuple[str, ...]:
    """Give the folders of the designs that have a release of this tag at its commit."""
    commit = commit_behind(repository, tag)
    if commit is None:
        return ()
    inside = f"{FOLDER}/releases/"
    files = files_saying(repository, commit, f'tag = "{tag}"')
    ours = (one for one in files if f"/{inside}" in f"/{one}")
    return tuple(
        dict.fromkeys(f"/{one}".rpartition(f"/{inside}")[0][1:] or "." for one in ours)
    )


def sister_tagged(repository: Repository, root: Path, tag: str) -> str:
    """Give the folder of another design whose release this tag is of; empty if none.

    `.` is the design at the top of the repository.
    """
    folders = designs_tagged(repository, tag)
    if repository.relative(root) in folders:
        return ""
    return folders[0] if folders else ""


def check_free(repository: Repository, root: Path, label: str, tag: str) -> None:
    """Check that a tag can be made.

    Raises:
        BadInput: there is one of its name, or one that git cannot have beside it.
    """
    if repository.commit_of(f"refs/tags/{tag}") is not None:
        sister = sister_tagged(repository, root, tag)
        whose = f", of the design in {sister}" if sister else ""
        raise BadInput(
            f"release {label}: the tag {tag} is there already{whose}; accepted: a new "
            "label"
        )
    beside = tags_below(repository, tag)
    if repository.commit_of(f"refs/tags/{tag.rpartition('/')[0]}") is not None:
        beside = (tag.rpartition("/")[0],)
    if beside:
        raise BadInput(
            f"release {label}: git cannot have the tag {tag} beside {beside[0]}; "
            "accepted: another label"
        )
