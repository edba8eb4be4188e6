"""Whether the records in a clone were logged by somebody else than who works here."""

from __future__ import annotations

from logbook.store.git.command import ask
from logbook.store.git.repository import Repository
from logbook.store.git.settings import person, settings


def logged_by_another(repository: Repository, folder: str) -> bool:
    """Tell whether the newest commit of a folder has another author's address.

    Where git does not know who works here, or whose it is, that counts as another.
    """
    last = ask(repository.top, "log", "--max-count=1", "--format=%ae", "--", folder)
    here = person(repository, settings(repository), "author")
    mine = here.rpartition("<")[2].rstrip(">").casefold()
    return not mine or last.line.casefold() != mine
