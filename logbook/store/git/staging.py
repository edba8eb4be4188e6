"""Paths into the user's own index, and back out of it if a commit fails."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence

from logbook.store.git.command import Answer, tell
from logbook.store.git.repository import Repository
from logbook.store.git.standing import Blob, Standing

_ID = "0" * 40


def stage(repository: Repository, places: Sequence[Standing]) -> Answer:
    """Let the index hold what the folder holds at these paths by now."""
    words = ["--add", "-z", "--stdin"]
    if any(place.file is None for place in places):
        words.insert(0, "--remove")
    names = "".join(f"{place.path}\0" for place in places)
    return tell(repository.top, "update-index", *words, given=os.fsencode(names))


def stage_as_seen(repository: Repository, places: Sequence[Standing]) -> Answer:
    """Let the index hold what the folder held when these paths were looked at.

    That is what the commit has. What a file became since would stand in the index as
    something nobody committed, and look like the user's own doing.
    """
    return hold(repository, {p.path: (p.file,) if p.file else () for p in places})


def put_back(repository: Repository, places: Sequence[Standing]) -> Answer:
    """Let the index hold again what it held when these paths were looked at."""
    return hold(repository, {place.path: place.index for place in places})


def hold(repository: Repository, blobs: Mapping[str, tuple[Blob, ...]]) -> Answer:
    """Let the index hold these blobs, one for each stage; nothing where there is none.

    An entry is removed by a mode of 0; the id beside it only has to be as long as the
    others of the repository.
    """
    ids = [blob.id for held in blobs.values() for blob in held]
    none = "0" * len(repository.head() or (ids or [_ID])[0])
    lines = []
    for path, held in blobs.items():
        nothing = f"0 {none}\t{path}\0"
        entries = [f"{mode} {blob}\t{path}\0" for mode, blob in held]
        lines += entries or [nothing]
    given = os.fsencode("".join(lines))
    return tell(repository.top, "update-index", "-z", "--index-info", given=given)
