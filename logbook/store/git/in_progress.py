"""What the user's own git is at: a commit of ours would come in between."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from logbook.store.git.locks import held_by_git
from logbook.store.git.repository import Repository
from logbook.store.git.state import Waits
from logbook.store.git.telling import telling


def unfinished(repository: Repository) -> str:
    """Name the merge, rebase or the like that is in progress; empty where none is."""
    for name, test, doing, _ in _IN_PROGRESS:
        if test(repository.git_dir / name):
            return doing
    return ""


def undisturbed(repository: Repository) -> Waits | None:
    """Say what the user's git is doing that a commit has to wait for."""
    for name, test, doing, ending in _IN_PROGRESS:
        if test(repository.git_dir / name):
            return Waits(
                f"A {doing} is in progress; the entries are saved and wait until "
                f"{ending}."
            )
    if repository.branch() is None:
        return Waits(
            "HEAD is detached (no branch is checked out); the entries are saved and "
            "wait until you check out a branch, for example with git switch."
        )
    return telling(repository) or held_by_git(repository)


_IN_PROGRESS: tuple[tuple[str, Callable[[Path], bool], str, str], ...] = (
    ("rebase-apply/applying", Path.exists, "git am", "git am --continue or --abort"),
    ("rebase-merge", Path.is_dir, "rebase", "git rebase --continue or --abort"),
    ("rebase-apply", Path.is_dir, "rebase", "git rebase --continue or --abort"),
    ("BISECT_LOG", Path.exists, "bisect", "git bisect reset"),
    ("MERGE_HEAD", Path.exists, "merge", "you commit it or git merge --abort"),
    (
        "CHERRY_PICK_HEAD",
        Path.exists,
        "cherry-pick",
        "git cherry-pick --continue or --abort",
    ),
    ("REVERT_HEAD", Path.exists, "revert", "git revert --continue or --abort"),
    (
        "sequencer",
        Path.is_dir,
        "series of cherry-picks or reverts",
        "it is continued or aborted",
    ),
)
