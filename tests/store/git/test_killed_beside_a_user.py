"""Two windows log, one is killed over and over, and the user goes on with his git.

What each does is drawn from a seed; at which moment the others are then, is not.
"""

from __future__ import annotations

import json
import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import pytest

from logbook.cli import main
from logbook.project import Project
from logbook.records.kinds.happenings import Note
from tests.store.git_world import FOLDER, Bench, quiet_surroundings

ROUNDS = 7
HOOK_THAT_OFTEN_REFUSES = "test $(($$ % 3)) -ne 0"


class User:
    """Who draws, stages and commits in the repository two windows log in."""

    def __init__(self, bench: Bench, dice: random.Random) -> None:
        self.bench = bench
        self.dice = dice
        self.staged: dict[str, str] = {}
        self.committed: dict[str, str] = {}

    def turn(self) -> None:
        ways = (self.stage, self.commit, self.commit_all, self.look, self.pack)
        self.dice.choices(ways, (4, 2, 1, 1, 1))[0]()

    def stage(self) -> None:
        path = f"drawings/{self.dice.choice(('base', 'lid', 'mask'))}.dxf"
        text = f"{self.dice.random()}\n"
        self.bench.write(path, text)
        while not self._git("add", path):
            time.sleep(0.01)
        self.staged[path] = text

    def commit(self, *words: str) -> None:
        if self._git("commit", "-q", "-m", f"Draw {self.dice.random()}", *words):
            self.committed |= self.staged
            self.staged.clear()

    def commit_all(self) -> None:
        self._git("add", FOLDER)
        self.commit("-a")

    def look(self) -> None:
        self._git("status")

    def pack(self) -> None:
        self._git("pack-refs", "--all")

    def _git(self, *words: str) -> bool:
        """Run git, which may find its index or HEAD in use; tell if it did it."""
        done = subprocess.run(
            ["git", *words], cwd=self.bench.top, capture_output=True, check=False
        )
        return done.returncode == 0

    def finds_his_own(self) -> None:
        """Check that all he staged and committed is as he left it."""
        bench = self.bench
        for path, text in self.staged.items():
            assert bench.git("show", f":{path}") == text
        for path in self.committed.keys() - self.staged.keys():
            assert bench.git("show", f"HEAD:{path}") == self.committed[path]
        names = bench.git("diff", "--cached", "--name-only").split()
        assert set(names) <= self.staged.keys()


@contextmanager
def two_windows(bench: Bench, diaries: Path, seed: str) -> Iterator[dict[str, Logging]]:
    windows = {name: Logging(bench, diaries, f"{seed}-{name}") for name in "ab"}
    try:
        for window in windows.values():
            window.has_begun()
        yield windows
    finally:
        for window in windows.values():
            window.kill(with_git=False)


class Logging:
    """A window that logs until it is killed, and what it wrote in its diary."""

    def __init__(self, bench: Bench, diaries: Path, name: str) -> None:
        self.bench, self.diary, self.name = bench, diaries / name, name
        self.times = 0
        self.process = self._start()

    def has_begun(self) -> None:
        """Wait until it has told of something."""
        end = time.monotonic() + 60
        while not self.diary.exists():
            assert time.monotonic() < end, "it tells of nothing"
            time.sleep(0.02)

    def again(self, *, with_git: bool) -> None:
        """Kill it, with the git it has started or without, and start it anew."""
        self.kill(with_git=with_git)
        self.times += 1
        self.process = self._start()

    def kill(self, *, with_git: bool) -> None:
        assert self.process.poll() is None, "it ended by itself"
        children = _below(self.process.pid) if with_git else []
        self.process.kill()
        for child in children:
            with suppress(ProcessLookupError):
                os.kill(child, signal.SIGKILL)
        self.process.wait()
        if children:
            self._as_told_by_git()

    def _as_told_by_git(self) -> None:
        """Remove the lock a killed git left, as the user is told to after a minute."""
        lock = self.bench.repository.git_dir / "index.lock"
        with suppress(FileNotFoundError):
            left = lock.stat()
            time.sleep(0.5)
            if lock.stat() == left:
                lock.unlink()

    def _start(self) -> subprocess.Popen[bytes]:
        module = [sys.executable, "-m", "tests.store.git.logging_on"]
        given = [str(self.bench.top), f"{self.name}-{self.times}", str(self.diary)]
        here = Path(__file__).parents[3]
        return subprocess.Popen([*module, *given], cwd=here)


def _below(process: int) -> list[int]:
    """Give the processes a process has started, and those they have."""
    found = []
    for facts in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            if int(facts.read_text().rpartition(")")[2].split()[1]) == process:
                child = int(facts.parent.name)
                found += [child, *_below(child)]
    return found


@pytest.fixture
def stand(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    quiet_surroundings(monkeypatch, tmp_path / "home")
    bench = Bench(tmp_path / "stand")
    bench.write("drawings/base.dxf", "0\nSECTION\n")
    bench.git("init", "-q")
    assert main(["start", "--in", str(bench.top), "--yes"]) == 0
    bench.git("add", ".")
    bench.git("commit", "-q", "-m", "Draw the copy stand")
    return bench


def old_locks(bench: Bench) -> None:
    """Let a minute have passed over the locks a killed git left on our references."""
    for lock in (bench.repository.git_dir / "refs/as-built").rglob("*.lock"):
        os.utime(lock, (0, 0))


@pytest.mark.parametrize("hook", ["", HOOK_THAT_OFTEN_REFUSES])
def test_nothing_is_lost_and_the_users_own_stays_as_he_left_it(
    stand: Bench, tmp_path: Path, hook: str
) -> None:
    seed = f"2026{bool(hook)}"
    dice = random.Random(seed)
    user = User(stand, dice)
    if hook:
        stand.hook("commit-msg", hook)
    with two_windows(stand, tmp_path, seed) as windows:
        for _ in range(ROUNDS):
            end = time.monotonic() + dice.uniform(0.4, 0.9)
            while time.monotonic() < end:
                user.turn()
            chosen = windows[dice.choice("ab")]
            chosen.again(with_git=dice.random() < 0.5)
    if hook:
        stand.hook("commit-msg", "exit 0")
    old_locks(stand)
    project = Project.open(stand.top)
    assert not project.commit_waiting().waiting
    stand.sound()
    assert not stand.git("status", "--porcelain", "--", FOLDER)
    user.finds_his_own()
    told = [
        json.loads(line)
        for window in windows.values()
        for line in window.diary.read_text().splitlines()
    ]
    made = {note for what, note in told if what == "made"}
    taken_back = {note for what, note in told if what == "taken back"}
    assert made
    assert made <= {note.id for note in project.snapshot.all(Note)} | taken_back
    assert {Path(one.path).name[:8] for one in project.lost()} <= taken_back
