"""Real repositories for the tests of the git route, far from the user's own settings.

`Bench` is a work tree with one commit, driven by git's own commands;
`footprint` is everything of the user's that must never change.
"""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from pathlib import Path

import pytest

from logbook.store.git.message import Change
from logbook.store.git.outcome import Outcome
from logbook.store.git.repository import Repository
from logbook.store.git.route import commit

FOLDER = "as-built"
NOTE = f"{FOLDER}/notes/2603/7k2m9qzd-crossbar-filed.md"
OTHER = f"{FOLDER}/notes/2603/4hx0c3te-lid-riveted.md"
WHEN = datetime(2026, 3, 14, 10, 15, 22, tzinfo=timezone(timedelta(hours=1)))

IN_PROGRESS = (
    "MERGE_HEAD",
    "CHERRY_PICK_HEAD",
    "REVERT_HEAD",
    "BISECT_LOG",
    "ORIG_HEAD",
    "AUTO_MERGE",
    "rebase-merge",
    "rebase-apply",
    "sequencer",
)


def quiet_surroundings(monkeypatch: pytest.MonkeyPatch, home: Path) -> None:
    """Let git read no settings but those of the test."""
    home.mkdir(exist_ok=True)
    for name in [name for name in os.environ if name.startswith("GIT_")]:
        monkeypatch.delenv(name)
    monkeypatch.setenv("HOME", str(home))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(home / ".config"))
    monkeypatch.setenv("GIT_CONFIG_NOSYSTEM", "1")
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", str(home / "gitconfig"))
    (home / "gitconfig").write_text(
        "[user]\n\tname = Mara Example\n\temail = mara@example.org\n"
        "[init]\n\tdefaultBranch = main\n[gc]\n\tauto = 0\n"
        '[protocol "file"]\n\tallow = always\n'
    )


@dataclass(frozen=True, slots=True)
class Footprint:
    """What of the user's is compared before and after, our paths left out."""

    index: tuple[str, ...]
    staged: str
    stashes: str
    in_progress: tuple[tuple[str, str], ...]
    work_tree: tuple[tuple[str, bytes], ...]


@dataclass(frozen=True, slots=True)
class Bench:
    """A work tree on disk and what a user or the program does in it."""

    top: Path

    @property
    def repository(self) -> Repository:
        found = Repository.find(self.top)
        assert found is not None
        return found

    def git(self, *words: str, given: str | None = None, fails: bool = False) -> str:
        done = subprocess.run(
            ["git", *words],
            cwd=self.top,
            input=given,
            capture_output=True,
            text=True,
            check=False,
        )
        if done.returncode and not fails:
            raise AssertionError(f"git {' '.join(words)}: {done.stderr}")
        return done.stdout

    def write(self, path: str, text: str) -> Path:
        place = self.top / path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(text.encode())
        return place

    def note(self, path: str = NOTE, text: str = "Filed to 178.3 mm.\n") -> Change:
        """Save a record as the program does, and give what is to be committed."""
        self.write(path, text)
        return Change((path,), f"Note {path.rpartition('/')[2][:8]}", when=WHEN)

    def save(self, path: str = NOTE, text: str = "Filed to 178.3 mm.\n") -> Outcome:
        return commit(self.repository, [self.note(path, text)], patience_s=5)

    def head(self) -> str:
        return self.git("rev-parse", "HEAD").strip()

    def hook(self, name: str, script: str) -> Path:
        place = self.repository.common_dir / "hooks" / name
        place.parent.mkdir(exist_ok=True)
        place.write_text(f"#!/bin/sh\n{script}\n")
        place.chmod(0o755)
        return place

    def footprint(self) -> Footprint:
        git_dir = self.repository.git_dir
        flags = self.git("ls-files", "-s", "-v", "-z").split("\0")
        files = (p for p in self.top.rglob("*") if ".git" not in p.parts)
        ours = self.top / FOLDER
        return Footprint(
            tuple(line for line in flags if f"\t{FOLDER}/" not in line),
            self.git("diff", "--cached", "--", ".", f":!{FOLDER}"),
            self.git("stash", "list"),
            tuple((name, _all_of(git_dir / name)) for name in IN_PROGRESS),
            tuple(
                (str(p.relative_to(self.top)), p.read_bytes())
                for p in sorted(files)
                if p.is_file() and ours not in p.parents
            ),
        )

    @contextmanager
    def undisturbed(self, commits: int) -> Iterator[None]:
        """Check that only `commits` of ours come on top and nothing else changes."""
        before, old = self.footprint(), self._tip()
        yield
        assert self.footprint() == before
        since = (
            [f"{old}..HEAD"] if old else ["HEAD"] if self._tip() else ["--all", "-0"]
        )
        new = self.git("rev-list", *since).split()
        assert len(new) == commits
        for id_ in new:
            words = ("-r", "--root", "--no-commit-id", "--name-only", "-z", id_)
            names = self.git("diff-tree", *words).split("\0")[:-1]
            assert all(name.startswith(f"{FOLDER}/") for name in names)
        self.sound()

    def sound(self) -> None:
        """Check that git finds nothing wrong and no lock or commit of ours is left."""
        self.git("fsck", "--strict", "--no-dangling")
        assert not (self.repository.git_dir / "index.lock").exists()
        assert not self.git("for-each-ref", "refs/as-built/coming")

    def _tip(self) -> str:
        return self.git("rev-parse", "-q", "--verify", "HEAD", fails=True).strip()


def made_bench(top: Path, monkeypatch: pytest.MonkeyPatch, *options: str) -> Bench:
    """Make a repository with its first commit, away from the user's own settings."""
    quiet_surroundings(monkeypatch, top.parent / "home")
    bench = Bench(top)
    top.mkdir()
    bench.git("init", "-q", *options)
    return first_commit(bench)


def _all_of(place: Path) -> str:
    if place.is_dir():
        return "\n".join(f"{p.name} {_all_of(p)}" for p in sorted(place.iterdir()))
    return place.read_text(errors="replace") if place.exists() else ""


def first_commit(bench: Bench) -> Bench:
    """Give a repository the design files of the copy stand, staged work and edits.

    Dimensions are invented.
    """
    bench.write("drawings/base.dxf", "0\nSECTION\n")
    bench.write("drawings/crossbar.dxf", "0\nSECTION\n2\nENTITIES\n")
    bench.write("README.md", "# Copy stand\n")
    bench.write(f"{FOLDER}/project.md", "# Copy stand, as built\n")
    bench.git("add", ".")
    bench.git("commit", "-q", "-m", "Draw the copy stand")
    return bench


def work_begun(bench: Bench) -> None:
    """Leave what a user has lying about: staged, edited, hidden, stashed, untracked."""
    bench.write("README.md", "# Copy stand, being stashed\n")
    bench.git("stash", "-q")
    bench.write("drawings/base.dxf", "0\nSECTION\n2\nHEADER\n")
    bench.git("add", "drawings/base.dxf")
    bench.write("drawings/base.dxf", "0\nSECTION\n2\nTABLES\n")
    bench.write("drawings/lid.dxf", "0\nEOF\n")
    bench.git("add", "-N", "drawings/lid.dxf")
    bench.write("drawings/mask.dxf", "0\nEOF\n")
    bench.git("add", "drawings/mask.dxf")
    bench.git("update-index", "--assume-unchanged", "README.md")
    bench.write("scribble.txt", "not tracked\n")
