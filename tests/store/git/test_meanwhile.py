"""The route beside all a user does meanwhile, and right after a save."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pytest

from logbook.store.disk.flushed import locked
from logbook.store.git import command, route, telling
from logbook.store.git.command import Answer
from logbook.store.git.repository import Repository
from logbook.store.git.route import commit
from logbook.store.git.staging import stage_as_seen
from logbook.store.git.standing import Standing
from logbook.store.git.waiting import lost, waiting
from tests.store.git_world import (
    FOLDER,
    NOTE,
    Bench,
    work_begun,
)

# --- beside a user and another of our programs ---


def loop(action: Callable[[int], None], until: threading.Event) -> threading.Thread:
    def run() -> None:
        turn = 0
        while not until.is_set():
            action(turn)
            turn += 1

    thread = threading.Thread(target=run)
    thread.start()
    return thread


def test_a_user_committing_in_a_loop_loses_nothing_and_nor_do_we(bench: Bench) -> None:
    done = threading.Event()

    def user(turn: int) -> None:
        bench.write("drawings/base.dxf", f"{turn}\n")
        bench.git("add", "drawings/base.dxf", fails=True)
        bench.git("commit", "-q", "-m", f"Draw {turn}", fails=True)

    thread = loop(user, done)
    paths = [f"{FOLDER}/notes/2603/{number:02}.md" for number in range(12)]
    try:
        for path in paths:
            assert commit(bench.repository, [bench.note(path, path)]).committed
    finally:
        done.set()
        thread.join()
    held = bench.git("ls-tree", "-r", "--name-only", "HEAD", FOLDER).split()
    assert set(paths) < set(held)
    assert not bench.git("status", "--porcelain", "--", FOLDER)
    bench.sound()


@pytest.mark.parametrize("when", ["before the index", "after the index"])
def test_a_commit_of_the_user_in_the_middle_of_ours_is_never_dropped(
    bench: Bench, monkeypatch: pytest.MonkeyPatch, when: str
) -> None:
    mine: list[str] = []

    def stage_late(repository: Repository, places: Sequence[Standing]) -> Answer:
        first = not mine
        if first and when == "before the index":
            bench.git("commit", "-q", "--allow-empty", "-m", "Mine")
            mine.append(bench.head())
        answer = stage_as_seen(repository, places)
        if first and when == "after the index":
            bench.git("commit", "-q", "-m", "Mine")
            mine.append(bench.head())
        return answer

    monkeypatch.setattr("logbook.store.git.route.stage_as_seen", stage_late)
    (done,) = bench.save().committed
    assert bench.git("show", f"HEAD:{NOTE}") == "Filed to 178.3 mm.\n"
    assert mine[0] in bench.git("rev-list", "HEAD")
    assert done.ours == (when == "before the index")
    assert done.id == bench.head()
    assert not bench.git("status", "--porcelain", "--", FOLDER)
    bench.sound()


def test_two_of_our_programs_at_once_commit_every_entry_once(bench: Bench) -> None:
    work_begun(bench)
    script = (
        "import sys\n"
        "from pathlib import Path\n"
        "from logbook.store.git.message import Change\n"
        "from logbook.store.git.repository import Repository\n"
        "from logbook.store.git.route import commit\n"
        "found = Repository.find(Path.cwd())\n"
        "for n in range(6):\n"
        "    path = f'as-built/notes/{sys.argv[1]}-{n}.md'\n"
        "    Path(path).parent.mkdir(parents=True, exist_ok=True)\n"
        "    Path(path).write_text(path)\n"
        "    assert commit(found, [Change((path,), path)], patience_s=30).committed\n"
    )
    with bench.undisturbed(12):
        running = [
            subprocess.Popen(
                [sys.executable, "-c", script, name],
                cwd=bench.top,
                env=os.environ | {"PYTHONPATH": str(Path(__file__).parents[2])},
            )
            for name in ("bench", "desk")
        ]
        assert [each.wait() for each in running] == [0, 0]
    subjects = bench.git("log", "-12", "--format=%s").split()
    assert len(set(subjects)) == 12


def test_while_another_of_our_programs_commits_an_entry_waits(bench: Bench) -> None:
    change = bench.note()
    with locked(bench.repository.git_path("as-built.lock")):
        outcome = commit(bench.repository, [change], patience_s=0.1)
    assert "Another logbook is committing" in outcome.waiting[0].sentence


# --- what a user does right after a save ---


def test_an_amend_right_after_keeps_the_entry(bench: Bench) -> None:
    bench.save()
    bench.git("commit", "-q", "--amend", "-m", "In my own words")
    assert waiting(bench.repository) == ()
    assert lost(bench.repository) == ()
    with bench.undisturbed(0):
        assert not bench.save().committed[0].ours


def test_a_merge_that_begins_meanwhile_finds_head_where_it_was(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    merging, head = bench.repository.git_dir / "MERGE_HEAD", bench.head()

    def staged(repository: Repository, places: Sequence[Standing]) -> Answer:
        answer = stage_as_seen(repository, places)
        merging.write_text(f"{head}\n")
        return answer

    with monkeypatch.context() as patch:
        patch.setattr(route, "stage_as_seen", staged)
        assert "merge is in progress" in bench.save().waiting[0].sentence
    assert bench.head() == head
    merging.unlink()
    assert bench.save().committed
    assert bench.git("show", f"HEAD:{NOTE}") == "Filed to 178.3 mm.\n"


@pytest.fixture
def at_its_message(bench: Bench, tmp_path: Path) -> Iterator[Callable[[], int]]:
    """Let the user be at the message of a commit; called, he ends it: git's code."""
    bench.write("drawings/base.dxf", "0\nEOF\n")
    bench.git("add", "drawings/base.dxf")
    begun, ended = tmp_path / "begun", tmp_path / "ended"
    editor = tmp_path / "editor"
    editor.write_text(
        f"#!/bin/sh\ntouch {begun}; while test ! -e {ended}; do sleep 0.02; done\n"
        "echo Mine > $1\n"
    )
    editor.chmod(0o755)
    env = os.environ | {"GIT_EDITOR": str(editor)}
    bench.git("config", "alias.ci", "commit")
    committing = subprocess.Popen(["git", "ci", "-q"], cwd=bench.top, env=env)
    end = time.monotonic() + 30
    while not begun.exists():
        assert time.monotonic() < end, "the editor never came"
        time.sleep(0.02)

    def ends() -> int:
        ended.touch()
        return committing.wait()

    yield ends
    ends()


@pytest.mark.parametrize("hook", [False, True])
def test_a_commit_the_user_is_writing_the_message_of_is_not_spoilt(
    bench: Bench, at_its_message: Callable[[], int], hook: bool
) -> None:
    if hook:
        bench.hook("commit-msg", "exit 0")
    assert "You are writing the message" in bench.save().waiting[0].sentence
    assert at_its_message() == 0
    assert bench.save().committed
    assert bench.git("log", "-2", "--format=%s").split("\n")[1] == "Mine"


def test_a_message_nobody_writes_any_more_keeps_nothing_back(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    message = bench.repository.git_dir / "COMMIT_EDITMSG"
    message.write_text("Given up\n")
    os.utime(message, (time.time() + 5,) * 2)
    assert bench.save().committed
    monkeypatch.setattr(telling, "_PROCESSES", bench.top / "no/proc")
    os.utime(message, (time.time() + 5,) * 2)
    assert bench.save(text="Filed to 178.2 mm.\n").waiting
    monkeypatch.setattr(telling, "AT_MOST_S", -10)
    assert bench.save(text="Filed to 178.2 mm.\n").committed


def test_where_there_are_keys_git_is_less_urgent(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(command, "_beside_keys", False)
    # git's own word: its shell may have begun before git was made less urgent.
    urgency = "!read -r line; cut -d' ' -f19 /proc/$PPID/stat"
    bench.git("config", "alias.urgency", urgency)
    command.let_keys_go_first()
    told = command.ask(bench.top, "urgency", given=b"go on\n")
    assert int(told.line) >= command.GIVES_WAY
