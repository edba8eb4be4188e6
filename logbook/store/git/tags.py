"""The tags of a repository: which there are, what one stands at, and making one."""

from __future__ import annotations

from logbook.errors import Refused
from logbook.store.git.command import ask, tell
from logbook.store.git.repository import Repository
from logbook.store.git.through_commit import LIMIT_S


def merged_tags(repository: Repository, prefix: str) -> tuple[str, ...]:
    """Give the tags whose names begin so and whose commits this branch holds."""
    words = ("for-each-ref", "--merged=HEAD", "--format=%(refname:strip=2)")
    answer = ask(repository.top, *words, f"refs/tags/{prefix}")
    return tuple(answer.out.decode("utf-8", "replace").split()) if answer.good else ()


def unmerged_tags(repository: Repository, prefix: str) -> tuple[str, ...]:
    """Give the tags whose names begin so and that this branch has not, newest first."""
    words = (
        "for-each-ref",
        "--no-merged=HEAD",
        "--sort=-creatordate",
        "--format=%(refname:strip=2)",
    )
    answer = ask(repository.top, *words, f"refs/tags/{prefix}")
    return tuple(answer.out.decode("utf-8", "replace").split()) if answer.good else ()


def tags_below(repository: Repository, name: str) -> tuple[str, ...]:
    """Give the tags whose names go on after this one and a slash."""
    words = ("for-each-ref", "--format=%(refname:strip=2)")
    answer = ask(repository.top, *words, f"refs/tags/{name}/")
    return tuple(answer.out.decode("utf-8", "replace").split()) if answer.good else ()


def commit_behind(repository: Repository, tag: str) -> str | None:
    """Give the commit that a tag stands at; None where there is none here."""
    name = f"refs/tags/{tag}^{{commit}}"
    answer = ask(repository.top, "rev-parse", "-q", "--verify", name)
    return answer.line if answer.good else None


def tag(repository: Repository, name: str, commit: str, text: str) -> str:
    """Make an annotated tag, signed if the user signs his tags; gives its id.

    Raises:
        Refused: the name is taken or not one git can use, or signing failed.

    """
    answer = tell(
        repository.top,
        "tag",
        "--annotate",
        "--cleanup=verbatim",
        "--file=-",
        "--",
        name,
        commit,
        given=text.encode("utf-8", "replace"),
        hooks=True,
        limit=LIMIT_S,
    )
    made = repository.commit_of(f"refs/tags/{name}")
    if not answer.good or made is None:
        raise Refused(f"The tag {name} was not made; git said: {answer.complaint}")
    return made
