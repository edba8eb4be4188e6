"""Questions about history; an answer git cannot give is None: it is unknown.

That happens in partial and shallow clones, where a commit or a blob is not
here; nothing is fetched to find out.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from logbook.store.git.command import ask
from logbook.store.git.message import one_line
from logbook.store.git.repository import Repository


@dataclass(frozen=True, slots=True)
class LogLine:
    """One commit in the history of a path."""

    id: str
    when: datetime
    author: str
    subject: str


def content_at(repository: Repository, commit: str, path: str) -> bytes | None:
    """Give a file's content as a commit has it; None if it is not there or not here."""
    return content_of(repository, f"{commit}:{path}")


def content_of(repository: Repository, blob: str) -> bytes | None:
    """Give the content of a blob by its id; None if it is not here."""
    answer = ask(repository.top, "cat-file", "blob", blob)
    return answer.out if answer.good else None


def contents_at(
    repository: Repository, commit: str, paths: Sequence[str]
) -> dict[str, bytes | None]:
    """Give the content of several files as a commit has them, in one question."""
    named = [f"{commit}:{path}" for path in paths]
    return dict(zip(paths, _contents(repository, named), strict=True))


def versions_of(
    repository: Repository, commits: Sequence[str], path: str
) -> list[bytes | None]:
    """Give a file's content as each of these commits has it, in one question."""
    return _contents(repository, [f"{commit}:{path}" for commit in commits])


def _contents(repository: Repository, named: Sequence[str]) -> list[bytes | None]:
    plain = [name for name in named if "\n" not in name]  # it takes a name a line
    given = b"".join(os.fsencode(f"{name}\n") for name in plain)
    found: dict[str, bytes | None] = {}
    if len(plain) > 1:
        answer = ask(repository.top, "cat-file", "--batch", given=given)
        if answer.good:
            found = dict(zip(plain, _batch(answer.out), strict=True))
    return [
        found[name] if name in found else content_of(repository, name) for name in named
    ]


def _batch(out: bytes) -> Iterator[bytes | None]:
    """Take the answers of a batch apart: `id blob size`, or a name that is missing."""
    at = 0
    while at < len(out):
        end = out.index(b"\n", at)
        said, at = out[at:end].rsplit(b" ", 2), end + 1
        size = int(said[-1]) if said[-1].isdigit() else None
        if size is None:
            yield None
            continue
        yield out[at : at + size] if said[1] == b"blob" else None
        at += size + 1


def log_of(
    repository: Repository, path: str, newest: int = 100
) -> tuple[LogLine, ...] | None:
    """List the commits that changed a path, newest first, at most `newest` of them."""
    answer = ask(
        repository.top,
        "log",
        "-z",
        f"--max-count={newest}",
        "--no-show-signature",
        "--no-ext-diff",
        "--no-textconv",
        "--no-mailmap",
        "--encoding=UTF-8",
        "--format=tformat:%H%x00%aI%x00%an%x00%s",
        "HEAD",
        "--",
        path,
    )
    if not answer.good:
        return None
    parts = iter(answer.fields())
    return tuple(
        LogLine(id_, datetime.fromisoformat(when), one_line(author), one_line(subject))
        for id_, when, author, subject in zip(parts, parts, parts, parts, strict=True)
    )


def is_shallow(repository: Repository) -> bool:
    """Tell whether this clone has only the newest commits, or cannot say."""
    answer = ask(repository.top, "rev-parse", "--is-shallow-repository")
    return not answer.good or answer.out.strip() != b"false"


def files_saying(repository: Repository, commit: str, text: str) -> tuple[str, ...]:
    """Give the paths of the text files that have these words, as a commit has them."""
    words = ("grep", "-I", "-l", "-z", "-F", "--full-name", "-e", text, commit)
    answer = ask(repository.top, *words)
    found = answer.fields() if answer.good else ()
    return tuple(one.removeprefix(f"{commit}:") for one in found)


def branches_ahead(repository: Repository) -> tuple[tuple[str, int], ...]:
    """Give the branches that have all of this one and more, with how many commits more.

    Those of this clone come first, then those of others as last fetched.
    """
    words = ("for-each-ref", "--contains=HEAD", "--no-merged=HEAD")
    names = ("--format=%(refname:strip=2)", "refs/heads", "refs/remotes")
    answer = ask(repository.top, *words, *names)
    found = answer.out.decode("utf-8", "replace").split() if answer.good else []
    counted = []
    for name in (one for one in found if not one.endswith("/HEAD")):
        told = ask(repository.top, "rev-list", "--count", f"HEAD..{name}", "--")
        counted.append((name, int(told.line) if told.good else 0))
    return tuple(counted)


def branches_of_others(repository: Repository) -> dict[str, str]:
    """Give the branches of other clones as they were last fetched, with their commits.

    The branch that a remote calls its own (`HEAD`) is among the others by its name.
    """
    words = ("for-each-ref", "--format=%(objectname) %(refname:strip=2)")
    answer = ask(repository.top, *words, "refs/remotes")
    if not answer.good:
        return {}
    told = (line.split(" ", 1) for line in answer.out.decode("utf-8").splitlines())
    return {name: commit for commit, name in told if not name.endswith("/HEAD")}


def names_in(repository: Repository, commit: str, folder: str) -> set[str] | None:
    """Give the paths of a folder's files as a commit has them; None if not here.

    Without a folder those of all files.
    """
    words = ("ls-tree", "-r", "-z", "--full-tree", "--name-only", commit)
    answer = ask(repository.top, *words, *(("--", folder) if folder else ()))
    return set(answer.fields()) if answer.good else None


def brought_in(repository: Repository, path: str) -> str | None:
    """Give the commit that first had a file; None where none here does.

    Of any branch or tag, and of what is being merged.
    """
    merging = "MERGE_HEAD" if repository.git_path("MERGE_HEAD").exists() else "HEAD"
    answer = ask(
        repository.top, "log", "--full-history", "--diff-filter=A", "--no-renames",
        "--no-show-signature", "--format=%H", "--branches", "--remotes", "--tags",
        "HEAD", merging, "--", path,
    )  # fmt: skip
    found = answer.out.decode("ascii", "replace").split() if answer.good else []
    return found[-1] if found else None


def remotes(repository: Repository) -> tuple[str, ...]:
    """Give the names of the clones that this one fetches from, `origin` first."""
    answer = ask(repository.top, "remote")
    found = answer.out.decode("utf-8", "replace").split() if answer.good else []
    return tuple(sorted(found, key=lambda name: (name != "origin", name)))


def unmerged(repository: Repository) -> tuple[str, ...]:
    """List the paths a merge left for the user to settle, as the index has them."""
    answer = ask(repository.top, "ls-files", "-u", "-z")
    if not answer.good:
        return ()
    return tuple(dict.fromkeys(one.partition("\t")[2] for one in answer.fields()))


def unmerged_removals(repository: Repository) -> dict[str, bool]:
    """Give the unmerged paths that one side alone removed; True where that is here.

    Of a file that is removed here the index has the other side alone (stage 3).
    """
    answer = ask(repository.top, "ls-files", "-u", "-z")
    stages: dict[str, set[str]] = {}
    for one in answer.fields() if answer.good else ():
        said, _, path = one.partition("\t")
        stages.setdefault(path, set()).add(said[-1:])
    return {
        path: "2" not in held
        for path, held in stages.items()
        if "1" in held and len(held) == 2
    }


def removals(repository: Repository, folder: str) -> dict[str, str]:
    """Give each file this branch removed from a folder, with the last such commit."""
    told = ask(
        repository.top,
        "log",
        "-z",
        "--full-history",
        "--diff-filter=D",
        "--name-only",
        "--no-renames",
        "--no-show-signature",
        "--format=tformat:%x01%H",
        "HEAD",
        "--",
        folder,
    )
    found: dict[str, str] = {}
    commit = ""
    for one in told.fields() if told.good else ():
        if one.startswith("\x01"):
            commit = one[1:]
        elif path := one.lstrip("\n"):
            found.setdefault(path, commit)
    return found


def changed_since_head(
    repository: Repository, paths: tuple[str, ...]
) -> tuple[str, ...] | None:
    """Give those of the paths whose content on disk is not what HEAD has.

    Filters of the user are applied as git would; a path git does not know counts
    as changed.
    """
    words = ("diff", "--name-only", "-z", "--no-ext-diff", "--no-textconv")
    answer = ask(repository.top, *words, "--no-renames", "HEAD", "--", *paths)
    known = ask(repository.top, "ls-files", "-z", "--", *paths)
    if not answer.good or not known.good:
        return None
    held = set(known.fields())
    return tuple(sorted({*answer.fields(), *(p for p in paths if p not in held)}))
