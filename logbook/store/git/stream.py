"""Commits written in git's fast-import stream, onto a private reference.

References under `refs/as-built/` are this program's own: `coming` holds commits
until the branch has them, `waiting` what cannot be committed yet, so that
neither a crash nor git's clearing up of loose objects loses a blob.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from dataclasses import dataclass

from logbook.store.git.command import Answer, tell
from logbook.store.git.repository import Repository
from logbook.store.git.standing import Standing


def coming(repository: Repository) -> str:
    """Name the reference that holds commits on their way to the branch."""
    return f"refs/as-built/coming/{repository.tree_name}"


def kept(repository: Repository) -> str:
    """Name the reference that holds what waits to be committed."""
    return f"refs/as-built/waiting/{repository.tree_name}"


@dataclass(frozen=True, slots=True)
class Draft:
    """A commit to be written; `author` and `committer` end with git's time."""

    message: bytes
    author: str
    committer: str
    files: tuple[Standing, ...]
    alone: bool = False
    """Whether its tree holds nothing but these files."""


def write(
    repository: Repository, ref: str, parent: str | None, drafts: Iterable[Draft]
) -> Answer:
    """Write a row of commits onto a private reference; prints one id a line."""
    lines = [b"feature done\n"]
    if parent is None:
        lines.append(f"reset {ref}\n\n".encode())
    for number, draft in enumerate(drafts, 1):
        lines += _commit(ref, number, draft, parent if number == 1 else None)
    lines.append(b"done\n")
    words = ("--quiet", "--force", "--date-format=raw")
    return tell(repository.top, "fast-import", *words, given=b"".join(lines))


def drop(repository: Repository, ref: str) -> None:
    """Let go of what a private reference holds, if there is one of that name."""
    if repository.commit_of(ref):
        tell(repository.top, "update-ref", "-d", ref)


def _commit(ref: str, number: int, draft: Draft, parent: str | None) -> list[bytes]:
    head = (
        f"commit {ref}\nmark :{number}\n"
        f"author {draft.author}\ncommitter {draft.committer}\n"
        f"data {len(draft.message)}\n"
    )
    lines = [os.fsencode(head), draft.message, b"\n"]
    if parent:
        lines.append(f"from {parent}\n".encode())
    if draft.alone:
        lines.append(b"deleteall\n")
    for place in draft.files:
        path = os.fsencode(_quoted(place.path))
        if place.file and place.content is not None:
            size = len(place.content)
            lines.append(f"M {place.file.mode} inline ".encode() + path)
            lines += [f"\ndata {size}\n".encode(), place.content]
        elif place.file:
            lines.append(f"M {place.file.mode} {place.file.id} ".encode() + path)
        else:
            lines.append(b"D " + path)
        lines.append(b"\n")
    return [*lines, f"\nget-mark :{number}\n".encode()]


def _quoted(path: str) -> str:
    return '"' + path.replace("\\", "\\\\").replace('"', '\\"') + '"'
