"""Where a path stands: in the folder, in the user's index, in HEAD."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from logbook.errors import Refused
from logbook.store.git.command import Answer, ask, tell
from logbook.store.git.message import one_line
from logbook.store.git.repository import Repository

_AT_ONCE = 500
"""Paths on one command line."""


class Blob(NamedTuple):
    """A file's content as git names it: its mode (`100644`) and blob id."""

    mode: str
    id: str


@dataclass(frozen=True, slots=True)
class Standing:
    """One path in three places; None where it is not. Unmerged: several in `index`.

    `content` is what the file held where that, as it is, becomes its blob; where a
    filter or line-end rule makes another one of it, git has written it already.
    """

    path: str
    file: Blob | None
    index: tuple[Blob, ...] = ()
    head: Blob | None = None
    content: bytes | None = field(default=None, repr=False)

    @property
    def committed(self) -> bool:
        """Whether HEAD already says what the folder says."""
        return self.file == self.head

    def staged_by_user(self, ours: Iterable[Blob] = ()) -> bool:
        """Whether the index has a version that is neither HEAD's, the file's nor ours.

        `ours` are versions this program itself put there before it was stopped.
        """
        own = tuple(blob for blob in (self.head,) if blob)
        if self.index == own or self.index == tuple(filter(None, (self.file,))):
            return False
        return len(self.index) != 1 or self.index[0] not in set(ours)


def stand(
    repository: Repository,
    head: str | None,
    paths: Sequence[str],
    *,
    file_modes_count: bool = True,
) -> dict[str, Standing]:
    """Find where each path stands; the paths have to be `unfit` for no reason.

    The blob of a file is the one `git add` would make of it, through the user's
    own filters and line-end rules. A file taken back while it is looked at is none.
    """
    in_head = tree(repository, head, paths)
    while True:
        modes = _modes(repository, paths, in_head, file_modes_count=file_modes_count)
        try:
            contents = {path: (repository.top / path).read_bytes() for path in modes}
            blobs = _blobs(repository, contents)
        except (FileNotFoundError, NotADirectoryError):
            continue
        except Refused:
            if all((repository.top / path).exists() for path in modes):
                raise
        else:
            break
    in_index = index(repository, paths)
    return {
        path: Standing(
            path,
            Blob(modes[path], blobs[path]) if path in modes else None,
            in_index.get(path, ()),
            in_head.get(path),
            contents.get(path),
        )
        for path in paths
    }


def unfit(repository: Repository, path: str) -> str:
    """Say in a sentence why a path cannot be committed as a file; empty if it can."""
    if one_line(path) != path:
        return f"{path!r} has signs in its name that do not belong in a file name."
    place = repository.top / path
    if place.is_symlink() or (place.exists() and not place.is_file()):
        return f"{path} is not a plain file, and only those are committed."
    return ""


def tree(
    repository: Repository, commit: str | None, paths: Sequence[str]
) -> dict[str, Blob]:
    """Give what a commit holds at each path; paths it does not hold are left out."""
    found: dict[str, Blob] = {}
    if commit is None:
        return found
    for some in _portions(paths):
        answer = ask(repository.top, "ls-tree", "-z", commit, "--", *some)
        for entry in answered(answer).fields():
            facts, _, path = entry.partition("\t")
            mode, _kind, blob = facts.split(" ")
            found[path] = Blob(mode, blob)
    return found


def index(repository: Repository, paths: Sequence[str]) -> dict[str, tuple[Blob, ...]]:
    """Give what the user's index holds at each path, all stages of it."""
    found: dict[str, tuple[Blob, ...]] = {}
    for some in _portions(_perhaps_indexed(repository, paths)):
        answer = ask(repository.top, "ls-files", "-s", "-z", "--", *some)
        for entry in answered(answer).fields():
            facts, _, path = entry.partition("\t")
            mode, blob, _stage = facts.split(" ")
            found[path] = (*found.get(path, ()), Blob(mode, blob))
    return found


def _perhaps_indexed(repository: Repository, paths: Sequence[str]) -> Sequence[str]:
    """Leave out paths whose name does not even occur in the index file.

    Asking git means reading every entry, at 100 000 files an eighth of what a
    commit by hand takes. Only an index that spells out its names in one file can
    be looked at so: version 2 or 3, not split; any other is left to git.
    """
    if not paths:
        return paths
    try:
        content = (repository.git_dir / "index").read_bytes()
    except OSError:
        return paths
    if int.from_bytes(content[4:8], "big") not in {2, 3} or any(
        repository.git_dir.glob("sharedindex.*")
    ):
        return paths
    names = {path: os.fsencode(path) + b"\0" for path in paths}
    start = os.fsencode(os.path.commonpath(names))
    first, last = content.find(start), content.rfind(start)
    near = content[first : last + max(map(len, names.values()))] if first >= 0 else b""
    return [path for path, name in names.items() if name in near]


def _modes(
    repository: Repository,
    paths: Sequence[str],
    in_head: dict[str, Blob],
    *,
    file_modes_count: bool,
) -> dict[str, str]:
    """Give the mode of each path that is a file in the folder."""
    modes: dict[str, str] = {}
    for path in paths:
        try:
            executable = os.lstat(repository.top / path).st_mode & 0o100
        except (FileNotFoundError, NotADirectoryError):
            continue
        if file_modes_count:
            modes[path] = "100755" if executable else "100644"
        else:
            modes[path] = in_head[path].mode if path in in_head else "100644"
    return modes


def _blobs(repository: Repository, contents: dict[str, bytes]) -> dict[str, str]:
    """Give each file's blob id; drop the contents that git itself had to convert."""
    if not contents:
        return {}
    blobs = _hashed(repository, list(contents))
    converted = [
        path
        for path, content in contents.items()
        if blobs[path] != blob_id(content, len(blobs[path]))
    ]
    if converted:
        blobs |= _hashed(repository, converted, "-w")
    for path in converted:
        del contents[path]
    return blobs


def blob_id(content: bytes, digits: int = 40) -> str:
    """Give the id git has for a content, in a SHA-256 repository of 64 digits."""
    whole = b"blob %d\0" % len(content) + content
    if digits == 64:
        return hashlib.sha256(whole).hexdigest()
    return hashlib.sha1(whole, usedforsecurity=False).hexdigest()


def _hashed(
    repository: Repository, paths: Sequence[str], *options: str
) -> dict[str, str]:
    names = os.fsencode("".join(f"{path}\n" for path in paths))
    run = tell if options else ask
    answer = run(repository.top, "hash-object", *options, "--stdin-paths", given=names)
    ids = answered(answer).out.decode("ascii").split()
    return dict(zip(paths, ids, strict=True))


def answered(answer: Answer) -> Answer:
    """Give an answer back.

    Raises:
        Refused: it is none; the sentence is git's own complaint.
    """
    if answer.good:
        return answer
    raise Refused(f"git said: {answer.complaint}")


def _portions(paths: Sequence[str]) -> Iterator[Sequence[str]]:
    for start in range(0, len(paths), _AT_ONCE):
        yield paths[start : start + _AT_ONCE]
