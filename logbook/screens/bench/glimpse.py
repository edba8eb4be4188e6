"""The first rows of a start: the newest entries, from the index, before all are read.

Only what the first paint needs is loaded here. A stale index shows what was;
what is so is shown as soon as the records are read.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from logbook.errors import LogbookError
from logbook.index.first import first_rows
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.margin_words import margin_word
from logbook.screens.ruled.moments import day
from logbook.store.git.own_folder import INDEX, in_git_folder
from logbook.store.git.repository import Repository
from logbook.store.reading.find import find_project

FIRST = 80
"""Rows asked for; no screen shows more."""


def glimpse(folder: Path) -> Sequence[Line]:
    """Give the newest entries of the nearest project, oldest first, as rows.

    None where there is no project or no index yet; whoever opens the project
    says why.
    """
    try:
        root = find_project(folder).parent
        repository = Repository.find(root)
        if repository is None or repository.bare:
            return ()
        rows = first_rows(root, in_git_folder(repository, root, INDEX), FIRST)
    except (LogbookError, OSError):
        return ()
    return [
        Line(row.id, day(row.when), row.title, margin_word(row.kind)) for row in rows
    ]
