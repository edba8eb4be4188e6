"""Locks of git that lie in the way: held just now, or left by a git that died."""

from __future__ import annotations

import time
from contextlib import suppress
from pathlib import Path

from logbook.store.git import stream
from logbook.store.git.repository import Repository
from logbook.store.git.state import Waits

LEFT_BEHIND_S = 60
"""From this age on, in seconds, a lock is taken for one nobody is at any more."""


def held_by_git(repository: Repository) -> Waits | None:
    """Say which lock keeps a commit of ours away, and what the user can do about it."""
    for lock, what in _in_the_way(repository):
        age_s = _age_s(lock)
        if age_s is None:
            continue
        if age_s < LEFT_BEHIND_S:
            return Waits(
                f"Another git command holds the {what} just now; the entries are "
                "saved and are committed when it is done.",
                passing=True,
            )
        return Waits(
            f"The {what} has been locked for {age_s / 60:.0f} min: if no git command "
            f"is running, remove {lock}; the entries are saved and wait."
        )
    return None


def clear_own_locks(repository: Repository) -> None:
    """Remove old locks on references that none but this program writes.

    Whoever calls keeps other runs of this program out. The user's own git may hold
    them for a moment where it packs references, hence the age.
    """
    for ref in (stream.coming(repository), stream.kept(repository)):
        lock = repository.common_dir / f"{ref}.lock"
        if (_age_s(lock) or 0) >= LEFT_BEHIND_S:
            with suppress(OSError):
                lock.unlink()


def _in_the_way(repository: Repository) -> tuple[tuple[Path, str], ...]:
    branch = repository.branch()
    return (
        (repository.git_dir / "index.lock", "index"),
        (repository.git_dir / "HEAD.lock", "branch"),
        (repository.common_dir / f"{branch}.lock", "branch"),
        (repository.common_dir / "packed-refs.lock", "list of references"),
    )


def _age_s(lock: Path) -> float | None:
    try:
        return time.time() - lock.stat().st_mtime
    except OSError:
        return None
