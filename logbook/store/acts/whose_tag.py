"""Which release a tag is of, after two clones made one of one name.

A tag is never moved here, nor sent anywhere: what puts it right is told as it is typed.
"""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from pathlib import Path

from logbook.records.kinds.made_public import Release
from logbook.records.kinds.place import FOLDER
from logbook.records.together.ordered import age
from logbook.records.together.snapshot import Snapshot
from logbook.store.acts.own_tags import sister_tagged, tag_of
from logbook.store.git.history import (
    branches_of_others,
    brought_in,
    names_in,
    remotes,
)
from logbook.store.git.repository import Repository
from logbook.store.git.tags import commit_behind

SHOWN = 12
"""Letters of a commit's id that are shown: enough to type, and to tell it by."""


def sent_out(snapshot: Snapshot, root: Path, repository: Repository) -> frozenset[str]:
    """Give the ids of the releases that are in a branch of others, as last fetched."""
    commits = set(branches_of_others(repository).values())
    places = _Places(snapshot, root, repository)
    return frozenset(
        one.id
        for one in snapshot.all(Release)
        if any(places.has(commit, one) for commit in commits)
    )


def of_another(
    snapshot: Snapshot, root: Path, repository: Repository
) -> Iterator[tuple[Release, Release | None, str]]:
    """Give each release whose tag here has not its record, with whose it is and where.

    Who that is is the newest release the tag's commit has; None where it has none.
    """
    places = _Places(snapshot, root, repository)
    every = snapshot.all(Release)
    for release in every:
        commit = _tagged(repository, release)
        if commit is not None and places.has(commit, release) is False:
            there = [one for one in every if places.has(commit, one)]
            yield release, max(there, key=age, default=None), commit


def wrongly_tagged(
    snapshot: Snapshot, root: Path, repository: Repository
) -> Iterator[str]:
    """Say which tags are of another release than is called so, and what to type."""
    places = _Places(snapshot, root, repository)
    for release, owner, commit in of_another(snapshot, root, repository):
        if sister := sister_tagged(repository, root, release.tag):
            where = "at the top of the repository" if sister == "." else f"in {sister}"
            own = tag_of(root, release.label)
            yield (
                f"release {release.label}: the tag {release.tag} is of the design "
                f"{where}, which keeps it; to have one of its own: write "
                f'tag = "{own}" in {snapshot.path(release)}, then type: '
                f"logbook release {release.label}"
            )
            continue
        whose = owner.title if owner else "something else"
        yield (
            f"release {release.label}: the tag {release.tag} in this clone is of "
            f"{whose} (commit {commit[:SHOWN]}), not of it; to put it right here, type:"
        )
        home = brought_in(repository, places.path(release))
        yield f"  {_set(release, home or 'COMMIT', moved=True)}"
        if not home:
            yield "  COMMIT is where that release was made; it is not in this clone"
        yield from _sent(repository, release, owner, commit)


def tagged_as(
    snapshot: Snapshot, root: Path, repository: Repository, tag: str
) -> Release | None:
    """Give the release a tag was set for, where its record names another tag by now.

    It is the newest one in the tag's commit among those whose own tag is not here.
    """
    commit = commit_behind(repository, tag)
    if commit is None:
        return None
    places = _Places(snapshot, root, repository)
    lost = (one for one in snapshot.all(Release) if not _tagged(repository, one))
    there = (one for one in lost if one.tag != tag and places.has(commit, one))
    return max(there, key=age, default=None)


def tag_command(
    snapshot: Snapshot, root: Path, repository: Repository, release: Release
) -> str:
    """Give what sets the tag of a release where it was made; empty if not known."""
    home = brought_in(repository, _Places(snapshot, root, repository).path(release))
    return _set(release, home) if home else ""


def _set(release: Release, commit: str, *, moved: bool = False) -> str:
    """Give what sets a tag, as it is typed; `moved` where it stands elsewhere."""
    text = f"Release {release.label}"
    former = [name for name in release.formerly if name.startswith("release ")]
    if former:
        text += f", made as {former[-1]}"
    words = ["git", "tag", *(["-f"] if moved else []), "-a", release.tag]
    return shlex.join([*words, commit[:SHOWN], "-m", text])


def _sent(
    repository: Repository, release: Release, owner: Release | None, commit: str
) -> Iterator[str]:
    """Say how to see which of them others have, and what to do then."""
    for remote in remotes(repository)[:1]:
        look = shlex.join(["git", "ls-remote", "--tags", remote, f"{release.tag}*"])
        yield f"  before that see what others have: {look}"
        if owner and release.title in owner.formerly:
            yield (
                f"  if {commit[:SHOWN]} stands there, that one went out under this "
                f"label: let it keep it: logbook settle --keeps-label {owner.id}"
            )
    yield "  a tag that is out is not moved: who has fetched it keeps it; tell him"


class _Places:
    """Where the records of releases lie, and which of them a commit has."""

    def __init__(self, snapshot: Snapshot, root: Path, repository: Repository) -> None:
        """Be of one project, whose folder may have been elsewhere before."""
        self._snapshot, self._root, self._repository = snapshot, root, repository
        self._folder = repository.relative(root / FOLDER)
        self._names: dict[tuple[str, str], set[str] | None] = {}

    def path(self, release: Release) -> str:
        """Give the file of a release from the top of the work tree."""
        return self._repository.relative(self._root / self._snapshot.path(release))

    def has(self, commit: str, release: Release) -> bool | None:
        """Tell whether a commit has a release; None where the commit is not here."""
        path = self.path(release)
        names = self._in(commit, self._folder)
        if names is None or path in names:
            return None if names is None else True
        own = path.rpartition("/")[2]
        return any(
            name.rpartition("/")[2] == own for name in self._in(commit, "") or ()
        )

    def _in(self, commit: str, folder: str) -> set[str] | None:
        key = (commit, folder)
        if key not in self._names:
            self._names[key] = names_in(self._repository, commit, folder)
        return self._names[key]


def _tagged(repository: Repository, release: Release) -> str | None:
    if not release.tag:
        return None
    return commit_behind(repository, release.tag)
