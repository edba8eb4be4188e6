"""Where our own files lie in the git directory.

Asked for before anything is painted, so nothing that reads records is loaded.
"""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path

from logbook.store.disk.own_places import APPLICATION
from logbook.store.git.repository import Repository

INDEX = "index.sqlite"
"""Name of the index among our files there."""


def in_git_folder(repository: Repository, root: Path, name: str) -> Path:
    """Give the place of a file of ours in the git directory: journal, lock, index.

    Several projects of one repository each have a folder there.
    """
    tag = sha256(repository.relative(root).encode()).hexdigest()[:12]
    return repository.git_path(APPLICATION) / tag / name
