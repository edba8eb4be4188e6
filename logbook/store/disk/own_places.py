"""Where our own files lie: in the git directory, and in the user's state folder.

Asked for before anything is painted, so nothing that reads records is loaded.
"""

from __future__ import annotations

import os
from hashlib import sha256
from pathlib import Path

from logbook.records.kinds.ids import slug
from logbook.records.kinds.place import FOLDER
from logbook.store.git.repository import Repository

STATE = "LOGBOOK_STATE"
"""Environment variable that names another state folder."""

INDEX = "index.sqlite"
"""Name of the index among our files in the git directory."""

_APPLICATION = "as-built-logbook"


def in_git_folder(repository: Repository, root: Path, name: str) -> Path:
    """Give the place of a file of ours in the git directory: journal, lock, index.

    Several projects of one repository each have a folder there.
    """
    tag = sha256(repository.relative(root).encode()).hexdigest()[:12]
    return repository.git_path(_APPLICATION) / tag / name


def state_folder(project: Path) -> Path:
    """Give the folder outside the repository that belongs to `project`.

    It is told apart by the project's place on this machine.
    """
    place = os.path.realpath(project)
    mark = sha256(os.fsencode(place)).hexdigest()[:12]
    folder = Path(place)
    name = folder.parent.name if folder.name == FOLDER else folder.name
    return state_folders() / f"{slug(name)}-{mark}"


def state_folders() -> Path:
    """Give the folder that holds the state folders of all projects."""
    chosen = os.environ.get(STATE)
    if chosen:
        return Path(chosen)
    from platformdirs import user_state_path

    return user_state_path(_APPLICATION)
