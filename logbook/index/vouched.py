"""What git vouches for: files that are in the commit as they are on disk.

It looks at the files in processes of its own; what it says is by path, relative to
the project.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from logbook.errors import Refused
from logbook.records.kinds.place import FOLDER
from logbook.store.git.command import Answer, ask
from logbook.store.git.repository import Repository


@dataclass(slots=True)
class Vouched:
    """Files git has newly taken, those it has no more, and the commit that is of."""

    base: str = ""
    vouched: set[str] = field(default_factory=set)
    doubted: set[str] = field(default_factory=set)


def ask_about_all(root: Path, repository: Repository) -> Vouched:
    """Find out what git vouches for, where it has not been asked before."""
    head = repository.head()
    if head is None:
        return Vouched()
    inside = _inside(root, repository)
    listed = ask(root, "ls-files", "-v", "-z", "--", FOLDER)
    files, staged = _edited(root), _staged(root, head)
    if not (listed.good and files.good and staged.good):
        return Vouched()
    plain = {f"{line[2:]}" for line in listed.fields() if line.startswith("H ")}
    return Vouched(head, plain - _paths(inside, files, staged))


@contextmanager
def ask_about_changed(
    root: Path, repository: Repository, base: str
) -> Iterator[Callable[[], Vouched | None]]:
    """Ask what changed since `base`; the answer is waited for when it is called.

    It is None where git does not say.
    """
    head = repository.head()
    with ThreadPoolExecutor(3) as threads:
        files = threads.submit(_edited, root)
        moved = threads.submit(_staged, root, base)
        staged = threads.submit(_staged, root, head) if head and head != base else moved

        def answer() -> Vouched | None:
            try:
                answers = files.result(), staged.result(), moved.result()
            except Refused:
                return None
            if head is None or not all(one.good for one in answers):
                return None
            inside = _inside(root, repository)
            dirty = _paths(inside, *answers[:2])
            return Vouched(head, _paths(inside, answers[2]) - dirty, dirty)

        yield answer


def _edited(root: Path) -> Answer:
    return ask(root, "diff-files", "-z", "--name-only", "--", FOLDER)


def _staged(root: Path, base: str) -> Answer:
    words = ("diff-index", "--cached", "-z", "--name-only", "--no-renames")
    return ask(root, *words, base, "--", FOLDER)


def _inside(root: Path, repository: Repository) -> str:
    """Give what git writes before a path of the project."""
    place = repository.relative(root)
    return "" if place == "." else f"{place}/"


def _paths(inside: str, *answers: Answer) -> set[str]:
    return {path.removeprefix(inside) for one in answers for path in one.fields()}
