"""Paths into the user's own index, and back out of it if a commit fails."""

from __future__ import annotations

import os
from collections.abc import Sequence

from logbook.store.git.command import Answer, tell
from logbook.store.git.repository import Repository
from logbook.store.git.standing import Standing


def stage(repository: Repository, places: Sequence[Standing]) -> Answer:
    """Let the index hold what the folder holds at these paths."""
    words = ["--add", "-z", "--stdin"]
    if any(place.file is None for place in places):
        words.insert(0, "--remove")
    names = "".join(f"{place.path}\0" for place in places)
    return tell(repository.top, "update-index", *words, given=os.fsencode(names))


def put_back(repository: Repository, places: Sequence[Standing]) -> Answer:
    """Let the index hold again what it held when these paths were looked at."""
    lines = []
    for place in places:
        known = place.file or place.head
        nothing = f"0 {'0' * len(known.id if known else '')}\t{place.path}\0"
        entries = [f"{mode} {blob}\t{place.path}\0" for mode, blob in place.index]
        lines += entries or [nothing]
    given = os.fsencode("".join(lines))
    return tell(repository.top, "update-index", "-z", "--index-info", given=given)
