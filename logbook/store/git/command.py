"""The one place that runs git, with the surroundings that make it harmless.

Questions (`ask`) start git directly: they are asked at first paint and by plain
verbs, where importing GitPython (some 70 ms) would cost more than the answer.
What writes (`tell`) goes through GitPython (`repo.git.execute`: of its ways to run
a command the one that lets it have a session of its own), imported in the
worker that commits and nowhere else.

No pager, editor, terminal prompt, file-system monitor or network; the user's
hooks run only where `tell` is asked for them.
"""

from __future__ import annotations

import os
import signal
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from contextvars import ContextVar
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from logbook.errors import Refused
from logbook.store.git.message import one_line

if TYPE_CHECKING:
    from git.cmd import Git

QUIET = {
    "GIT_TERMINAL_PROMPT": "0",
    "GIT_EDITOR": ":",
    "GIT_PAGER": "cat",
    "GIT_ASKPASS": "",
    "SSH_ASKPASS_REQUIRE": "never",
    "LANGUAGE": "C",
    "LC_ALL": "C",
}
PLUMBING = {
    "GIT_LITERAL_PATHSPECS": "1",
    "GIT_NO_LAZY_FETCH": "1",
    "GIT_ALLOW_PROTOCOL": "none",
    "GIT_NO_REPLACE_OBJECTS": "1",
}
"""Paths mean themselves; a missing object of a partial clone stays missing, and one
that the user has replaced is what it was: a commit of ours must not take that along."""

REDIRECTIONS = (
    "GIT_DIR",
    "GIT_WORK_TREE",
    "GIT_INDEX_FILE",
    "GIT_OBJECT_DIRECTORY",
    "GIT_ALTERNATE_OBJECT_DIRECTORIES",
    "GIT_COMMON_DIR",
    "GIT_NAMESPACE",
)
"""Variables by which git, running us from a hook, points at another index or tree."""

NO_PROGRAMS = ("core.fsmonitor=false",)
NO_HOOKS = (*NO_PROGRAMS, f"core.hooksPath={os.devnull}")
NO_CHORES = (
    *NO_PROGRAMS,
    "gc.auto=0",
    "maintenance.auto=false",
    "commit.verbose=false",
)
DURABLE = ("core.fsync=all",)

UNKNOWN = 128
"""The code git ends with when it cannot answer at all."""

TOO_LONG = -1
"""The code of an `Answer` whose command was ended because its time was up."""


GIVES_WAY = 10
"""By so much git is less urgent than the keys, where there are keys."""

_beside_keys = False


def let_keys_go_first() -> None:
    """Let every git command from now on give way to this process.

    git looks at many files with many threads, and takes every processor there is.
    """
    global _beside_keys  # noqa: PLW0603  # a fact about this process
    _beside_keys = True


_lent: ContextVar[tuple[int, ...]] = ContextVar("lent", default=())
"""What this thread's git commands that write hold open, beside this process."""


@contextmanager
def lent(descriptor: int | None) -> Iterator[None]:
    """Let what git writes meanwhile hold this lock as well.

    A program that is killed leaves its git behind, which goes on writing: so long no
    other of our programs may take the repository for one nobody is at.
    """
    before = _lent.set(() if descriptor is None else (descriptor,))
    try:
        yield
    finally:
        _lent.reset(before)


@dataclass(frozen=True, slots=True)
class Answer:
    """What a git command ended with and printed."""

    code: int
    out: bytes
    err: str

    @property
    def good(self) -> bool:
        """Whether the command did what it was told."""
        return self.code == 0

    @property
    def line(self) -> str:
        """The first output line, without its end."""
        return self.out.split(b"\n", 1)[0].decode("utf-8", "replace")

    @property
    def complaint(self) -> str:
        """The line of git's complaint that says most, for a sentence."""
        lines = [one_line(line) for line in self.err.splitlines() if line.strip()]
        marked = [line for line in lines if line.startswith(("fatal:", "error:"))]
        return (marked or lines or [f"ended with code {self.code}"])[-1]

    def fields(self) -> list[str]:
        """Split output that git ended field by field with a zero byte (`-z`)."""
        return [os.fsdecode(field) for field in self.out.split(b"\0")[:-1]]


def redirected() -> str:
    """Name the variable that points git elsewhere than the folder, or nothing."""
    return next((name for name in REDIRECTIONS if name in os.environ), "")


def ask(folder: Path, *words: str, given: bytes = b"") -> Answer:
    """Run a git command that only reads; it takes no lock and writes nothing.

    Raises:
        Refused: git is not installed.
    """
    env = {name: text for name, text in os.environ.items() if name not in REDIRECTIONS}
    env |= QUIET | PLUMBING | {"GIT_OPTIONAL_LOCKS": "0"}
    if words[0] == "check-ignore":  # it takes paths as they are and refuses to be told
        del env["GIT_LITERAL_PATHSPECS"]
    settings = () if words[0] == "config" else NO_HOOKS  # it would list ours as well
    options = [part for setting in settings for part in ("-c", setting)]
    try:
        process = subprocess.Popen(
            ["git", *options, *words],
            cwd=folder,
            env=env,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
    except FileNotFoundError:
        raise Refused(
            "git was not found: it has to be installed and on the PATH."
        ) from None
    with process:
        _give_way(process.pid)
        out, err = process.communicate(given)
    return Answer(process.returncode, out, os.fsdecode(err))


def _give_way(process: int) -> None:
    """Make a command less urgent, and its session, which Linux weighs as a whole."""
    if not _beside_keys:
        return
    with suppress(OSError):
        os.setpriority(os.PRIO_PROCESS, process, GIVES_WAY)
        if os.getsid(process) == process:
            Path(f"/proc/{process}/autogroup").write_text(str(GIVES_WAY))


def tell(
    folder: Path,
    command: str,
    *words: str,
    given: bytes = b"",
    hooks: bool = False,
    limit: float | None = None,
) -> Answer:
    """Run a git command that writes, in a session of its own without a terminal.

    Args:
        folder: top of the work tree.
        command: the git command, such as `update-index`.
        words: its options and arguments.
        given: its standard input.
        hooks: whether the user's hooks and signing programs may run.
        limit: seconds after which it and all it started are ended.

    """
    settings = (NO_CHORES if hooks else NO_HOOKS) + DURABLE
    options = [part for setting in settings for part in ("-c", setting)]
    git = _git(str(folder))
    running = git.execute(
        [git.GIT_PYTHON_GIT_EXECUTABLE, *options, command, *words],
        as_process=True,
        istream=subprocess.PIPE,
        env=QUIET if hooks else QUIET | PLUMBING,
        start_new_session=True,
        pass_fds=() if hooks else _lent.get(),  # a hook may leave something running
    )
    process = running.proc
    assert process is not None
    _give_way(process.pid)
    try:
        out, err = process.communicate(given, timeout=limit)
    except subprocess.TimeoutExpired:
        out, err = _end(process)
        return Answer(TOO_LONG, out, os.fsdecode(err))
    return Answer(process.returncode, out, os.fsdecode(err))


@cache
def _git(folder: str) -> Git:
    from git.cmd import Git

    return Git(folder)


def _end(process: subprocess.Popen[bytes]) -> tuple[bytes, bytes]:
    """End a whole session: first so that git clears its locks, then for good."""
    try:
        os.killpg(process.pid, signal.SIGTERM)
        said = process.communicate(timeout=2)
    except subprocess.TimeoutExpired:
        os.killpg(process.pid, signal.SIGKILL)
        return process.communicate()
    with suppress(ProcessLookupError):
        os.killpg(process.pid, signal.SIGKILL)
    return said
