"""One look at a repository: can entries be committed, and how. It changes nothing."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from logbook.errors import Refused
from logbook.store.git.command import UNKNOWN, ask, redirected
from logbook.store.git.in_progress import undisturbed
from logbook.store.git.repository import Repository
from logbook.store.git.settings import person, set_date, settings, true
from logbook.store.git.state import CLOSED, Ready, Refuses, State, Waits

HOOKS = (
    "pre-commit",
    "prepare-commit-msg",
    "commit-msg",
    "post-commit",
    "reference-transaction",
    "post-index-change",
)
"""Hooks that have a say when an index or a branch changes."""


@dataclass(frozen=True, slots=True)
class Survey:
    """What one look at a repository found: its state and what a commit needs."""

    state: State
    head: str | None = None
    author: str = ""
    committer: str = ""
    config: Mapping[str, str] = field(default_factory=dict)
    through_commit: str = ""
    """Why `git commit` itself has to do it (signing, a hook); empty if it need not."""
    date: str = ""
    """The committer's time, where the user's surroundings set one; else empty."""

    @property
    def file_modes_count(self) -> bool:
        """Whether this disk knows which files are executable."""
        return true(self.config.get("core.filemode", "true"))


def state(repository: Repository, folder: str = "as-built") -> State:
    """Say whether entries under `folder` can be committed now, in one sentence."""
    try:
        surveyed = survey(repository, folder)
    except Refused as reason:
        return Refuses(str(reason))
    if isinstance(surveyed.state, Ready) and not surveyed.state.remark:
        return Ready(_ignored(repository, folder))
    return surveyed.state


def why_unanswered(repository: Repository, folder: str, said: Refused) -> str:
    """Say why git does not even tell what waits: by its state, else as it `said`."""
    found = state(repository, folder)
    return f"{said}" if isinstance(found, Ready) else found.sentence


def survey(repository: Repository, folder: str) -> Survey:
    """Look at everything that decides whether and how a commit can be made."""
    if repository.bare:
        return Survey(Refuses(_BARE.format(repository.top)))
    if name := redirected():
        return Survey(Waits(_REDIRECTED.format(name)))
    config = settings(repository)
    found = (
        _usable(repository, config)
        or undisturbed(repository)
        or _outside_cone(repository, folder, config)
    )
    if found:
        return Survey(found)
    head = repository.head()
    if head is None and (found := _before_first(config)):
        return Survey(found)
    author, committer = (
        person(repository, config, who) for who in ("author", "committer")
    )
    if not author or not committer:
        return Survey(Waits(_NO_IDENTITY))
    return Survey(
        Ready(_remark(head, config)),
        head,
        author,
        committer,
        config,
        _through_commit(repository, config),
        set_date(repository),
    )


_NO_IDENTITY = (
    "git does not know your name yet: set it with "
    'git config --global user.name "Your Name" and '
    "git config --global user.email you@example.org; the entries are saved and wait."
)


_BARE = (
    "{} is a bare repository: it has no work tree to keep records in; use a clone "
    "of it."
)
_REDIRECTED = (
    "{} is set, so git itself or a script has started this program; the entries are "
    "saved and are committed at the next start without it."
)


def _usable(repository: Repository, config: Mapping[str, str]) -> State | None:
    """Say what keeps git out of the repository for good, or the disk closed.

    git leaves the settings of a repository it does not trust unread, so only if
    they are missing has it to be asked why.
    """
    if "core.repositoryformatversion" not in config:
        answer = ask(repository.top, "rev-parse", "--is-bare-repository")
        if answer.code == UNKNOWN and "dubious ownership" in answer.err:
            return Refuses(
                f"{repository.top} belongs to another user, so git will not work in "
                "it (dubious ownership); if you trust it, run "
                f"git config --global --add safe.directory {repository.top}"
            )
        if not answer.good:
            return Refuses(f"git cannot read this repository: {answer.complaint}")
    if true(config.get("core.bare", "false")):
        return Refuses(_BARE.format(repository.top))
    elsewhere = Path(repository.git_dir, config.get("core.worktree", repository.top))
    if elsewhere.resolve() != repository.top.resolve():
        return Refuses(
            f"The settings of {repository.top} name {elsewhere} as its work tree "
            "(core.worktree); records are kept in an ordinary work tree only.",
            blind=True,
        )
    for place in (repository.git_dir, repository.common_dir / "objects"):
        if not os.access(place, os.W_OK):
            return Waits(CLOSED.format(place))
    return None


def _before_first(config: Mapping[str, str]) -> State | None:
    if not any(key.startswith("remote.") for key in config):
        return None
    return Waits(
        "This branch has no commit yet and a remote is set: pull or make the first "
        "commit yourself; the entries are saved and wait."
    )


def _outside_cone(
    repository: Repository, folder: str, config: Mapping[str, str]
) -> State | None:
    if not true(config.get("core.sparsecheckout", "false")):
        return None
    if true(config.get("core.sparsecheckoutcone", "true")):
        answer = ask(
            repository.top, "-c", "core.quotePath=false", "sparse-checkout", "list"
        )
        shown = [os.fsdecode(line) for line in answer.out.splitlines()]
        inside = any(f"{folder}/".startswith(f"{name}/") for name in shown)
    else:
        listed = ask(repository.top, "ls-files", "-t", "-z", "--", folder).fields()
        inside = not any(entry.startswith("S ") for entry in listed)
    if inside:
        return None
    return Refuses(
        f"{folder}/ is outside the sparse checkout: take it in with "
        f"git sparse-checkout add {folder}"
    )


def _remark(head: str | None, config: Mapping[str, str]) -> str:
    if head is None:
        return "This branch has no commit yet: the entry will be its first."
    if config.get("extensions.refstorage", "files") != "files":
        return "References kept in tables (reftable) are untested here."
    return ""


def _ignored(repository: Repository, folder: str) -> str:
    answer = ask(
        repository.top, "check-ignore", "-v", "--no-index", "--", f"{folder}/project.md"
    )
    if not answer.good:
        return ""
    rule = os.fsdecode(answer.out).split("\t")[0]
    return (
        f"{folder}/ is ignored by git ({rule}); its entries are committed all the "
        "same, but git add and git status pass over new ones."
    )


def _through_commit(repository: Repository, config: Mapping[str, str]) -> str:
    if true(config.get("commit.gpgsign", "false")):
        return "signing"
    place = config.get("core.hookspath", "")
    hooks = (
        repository.top / Path(place).expanduser()
        if place
        else repository.common_dir / "hooks"
    )
    for name in HOOKS:
        if os.access(hooks / name, os.X_OK):
            return f"the {name} hook"
    return ""
