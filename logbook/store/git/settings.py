"""git's settings as they hold in a repository, and the user's name from them."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping

from logbook.store.git.command import ask
from logbook.store.git.repository import Repository

_PLAIN = re.compile(r"\w([^<>\n]*\w)?")


def person(repository: Repository, config: Mapping[str, str], who: str) -> str:
    """Give a name and address as a commit has them; empty if git knows none.

    git itself is asked unless the plain settings are all there is.
    """
    name, email = config.get("user.name", ""), config.get("user.email", "")
    special = any(f"{who}.{part}" in config for part in ("name", "email"))
    special |= any(f"GIT_{who.upper()}_{part}" in os.environ for part in _PARTS)
    if not special and _PLAIN.fullmatch(name) and _PLAIN.fullmatch(email):
        return f"{name} <{email}>"
    answer = ask(repository.top, "var", f"GIT_{who.upper()}_IDENT")
    return answer.line.rpartition("> ")[0] + ">" if answer.good else ""


_PARTS = ("NAME", "EMAIL")


def set_date(repository: Repository) -> str:
    """Give the committer's time if the user's surroundings set one, as git has it."""
    if "GIT_COMMITTER_DATE" not in os.environ:
        return ""
    return ask(repository.top, "var", "GIT_COMMITTER_IDENT").line.rpartition("> ")[2]


def settings(repository: Repository) -> dict[str, str]:
    """Read all settings that hold here; a name alone means true, as in git."""
    found: dict[str, str] = {}
    for entry in ask(repository.top, "config", "-z", "--list").fields():
        key, given, value = entry.partition("\n")
        found[key] = value if given else "true"
    return found


def true(value: str) -> bool:
    """Read a yes or no as git does."""
    return value.lower() in {"true", "yes", "on"} or (
        value.lstrip("-").isdigit() and int(value) != 0
    )
