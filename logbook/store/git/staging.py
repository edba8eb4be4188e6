"""Paths into the user's own index, and back out of it if a commit fails."""

from __future__ import annotations

import os
import time
from collections.abc import Iterable, Mapping, Sequence

from logbook.store.git.command import Answer, tell
from logbook.store.git.repository import Repository
from logbook.store.git.standing import Blob, Standing, index, tree
from logbook.store.git.state import trouble

_ID = "0" * 40
_TRIES = 50
_PAUSE_S = 0.02


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


Held = Mapping[str, tuple[Blob, ...]]
"""What the index has at paths, one blob for each stage; nothing where there is none."""


def staged_now(repository: Repository, paths: Sequence[str]) -> Held:
    """Give what the index holds at each of these paths."""
    found = index(repository, paths)
    return {path: found.get(path, ()) for path in paths}


def take_out(repository: Repository, staged: Held, before: Held | None = None) -> None:
    """Take out of the index what we had staged: let it hold what it held before.

    Without `before` that is what HEAD has. Only what the index still holds as `staged`
    goes out: what the user has staged there since stays. What a commit of his took
    along stays too, for the index without it would have his next commit drop it; one
    made at this very moment is looked for once more behind it.
    """
    in_head = _in_head(repository, staged)
    now = staged_now(repository, list(staged))
    out = {
        path: in_head[path] if before is None else before[path]
        for path, blobs in staged.items()
        if now[path] == blobs != in_head[path]
    }
    if not out:
        return
    _surely(repository, out)
    in_head = _in_head(repository, out)
    _surely(repository, {p: staged[p] for p in out if in_head[p] == staged[p]})


def _in_head(repository: Repository, paths: Iterable[str]) -> Held:
    found = tree(repository, repository.head(), list(paths))
    return {path: (found[path],) if path in found else () for path in paths}


def _surely(repository: Repository, blobs: Held) -> None:
    """Let the index hold these, also where another git is at it for a moment."""
    for _ in range(_TRIES if blobs else 0):
        answer = hold(repository, blobs)
        if answer.good or not trouble(answer).passing:
            return
        time.sleep(_PAUSE_S)


def hold(repository: Repository, blobs: Held) -> Answer:
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
