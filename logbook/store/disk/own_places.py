"""Where our own files lie outside the repository: in the user's state folder.

Asked for before anything is painted, so nothing that reads records is loaded.
"""

from __future__ import annotations

import os
from hashlib import sha256
from pathlib import Path

from logbook.records.kinds.ids import slug
from logbook.records.kinds.place import FOLDER

STATE = "LOGBOOK_STATE"
"""Environment variable that names another state folder."""

APPLICATION = "as-built-logbook"
"""Names our own folder, among those of other programs."""


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

    return user_state_path(APPLICATION)
