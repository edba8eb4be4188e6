"""Whether the user is writing the message of a commit of his own.

His `git commit` has looked at HEAD before it opened his editor, and refuses to end
where HEAD has moved since. Nothing is locked meanwhile; what shows it is the file of
the message, begun after HEAD last moved.
"""

from __future__ import annotations

import os
import time
from pathlib import Path

from logbook.store.git.repository import Repository
from logbook.store.git.state import Waits

_PROCESSES = Path("/proc")

AT_MOST_S = 600
"""So long a message is waited for where nobody can say whether git still runs."""


def telling(repository: Repository) -> Waits | None:
    """Say that a `git commit` of this repository is at its message, if one is."""
    message = repository.git_dir / "COMMIT_EDITMSG"
    begun = _changed(message)
    if begun <= _changed(repository.git_dir / "logs/HEAD"):
        return None
    if not (_PROCESSES / "self/stat").exists():
        return _WRITTEN if time.time() - begun < AT_MOST_S else None
    running = [one for one in _PROCESSES.iterdir() if one.name.isdigit()]
    if any(_edits(process, message) for process in running):
        return _WRITTEN
    if any(_commits(process, repository) for process in running):
        return _MADE
    return None


_WRITTEN = Waits(
    "You are writing the message of a git commit; the entries are saved and are "
    "committed after it."
)
_MADE = Waits(
    "A git commit of yours is being made; the entries are saved and are committed "
    "after it.",
    passing=True,
)


def _changed(file: Path) -> float:
    """Give when a file was changed, in seconds of the clock; 0 where there is none."""
    try:
        return file.stat().st_mtime
    except OSError:
        return 0


def _edits(process: Path, message: Path) -> bool:
    """Tell whether a process was started to edit this file."""
    named = [Path(word) for word in _words(process) if word.endswith(message.name)]
    folder = _folder(process) if named else None
    whole = message.resolve()
    return folder is not None and any(
        (folder / one).resolve() == whole for one in named
    )


def _commits(process: Path, repository: Repository) -> bool:
    """Tell whether a process is a `git commit` in this work tree."""
    words = _words(process)
    if Path(words[0]).name != "git" or "commit" not in words:
        return False
    folder = _folder(process)
    found = Repository.find(folder) if folder else None
    return found is not None and found.git_dir.resolve() == repository.git_dir.resolve()


def _words(process: Path) -> list[str]:
    try:
        return os.fsdecode((process / "cmdline").read_bytes()).split("\0")
    except OSError:  # it has ended
        return [""]


def _folder(process: Path) -> Path | None:
    """Give the folder a process works in; None where that is kept from us."""
    try:
        return (process / "cwd").readlink()
    except OSError:
        return None
