"""The route beside all a user does meanwhile, and right after a save."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from logbook.store.git import command, route, stream
from logbook.store.git.command import Answer
from logbook.store.git.message import Change
from logbook.store.git.repository import Repository
from logbook.store.git.route import commit
from logbook.store.git.staging import stage
from logbook.store.git.standing import Standing, stand
from logbook.store.git.state import Ready, state
from logbook.store.git.waiting import lost, waiting
from tests.store.git_world import (
    FOLDER,
    NOTE,
    OTHER,
    Bench,
    made_bench,
    work_begun,
)


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    return made_bench(tmp_path / "stand", monkeypatch)


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
        answer = stage(repository, places)
        if first and when == "after the index":
            bench.git("commit", "-q", "-m", "Mine")
            mine.append(bench.head())
        return answer

    monkeypatch.setattr("logbook.store.git.route.stage", stage_late)
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
    from filelock import FileLock

    change = bench.note()
    with FileLock(bench.repository.git_path("as-built.lock")):
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


def test_a_checkout_of_another_branch_leaves_the_entry_on_its_branch(
    bench: Bench,
) -> None:
    bench.git("branch", "other")
    bench.save()
    bench.git("switch", "-q", "other")
    assert not (bench.top / NOTE).exists()
    assert waiting(bench.repository) == ()
    assert lost(bench.repository) == ()
    bench.git("switch", "-q", "main")
    assert (bench.top / NOTE).exists()


def saved_while_merging(bench: Bench) -> None:
    """Save an entry that has to wait."""
    merging = bench.repository.git_dir / "MERGE_HEAD"
    merging.write_text(bench.head() + "\n")
    assert bench.save().waiting
    merging.unlink()


def test_a_waiting_entry_goes_along_to_another_branch_and_is_committed(
    bench: Bench,
) -> None:
    saved_while_merging(bench)
    bench.git("switch", "-q", "-c", "other")
    assert waiting(bench.repository) == (NOTE,)
    with bench.undisturbed(1):
        assert bench.save().committed


@pytest.mark.parametrize(
    "words", [("clean", "-q", "-fd"), ("stash", "-q", "-u")], ids=["clean", "stash"]
)
def test_what_clean_and_stash_take_away_is_said_and_kept(
    bench: Bench, words: tuple[str, ...]
) -> None:
    saved_while_merging(bench)
    bench.git(*words)
    assert not (bench.top / NOTE).exists()
    bench.git("gc", "-q", "--prune=now")
    (gone,) = lost(bench.repository)
    assert gone.path == NOTE
    assert f"{NOTE} was saved and waited for its commit, but something took it" in (
        gone.sentence
    )
    assert bench.git("cat-file", "blob", gone.blob) == "Filed to 178.3 mm.\n"
    bench.save(OTHER)
    assert [each.path for each in lost(bench.repository)] == [NOTE]
    bench.save()
    assert lost(bench.repository) == ()


def test_a_correction_that_waited_and_was_reset_away_is_said_and_kept(
    bench: Bench,
) -> None:
    bench.save()
    merging = bench.repository.git_dir / "MERGE_HEAD"
    merging.write_text(bench.head() + "\n")
    bench.save(text="Filed to 178.1 mm.\n")
    merging.unlink()
    assert lost(bench.repository) == ()
    bench.git("reset", "-q", "--hard")
    (gone,) = lost(bench.repository)
    assert bench.git("cat-file", "blob", gone.blob) == "Filed to 178.1 mm.\n"


def test_an_entry_taken_back_while_it_waited_is_not_missed(bench: Bench) -> None:
    saved_while_merging(bench)
    (bench.top / NOTE).unlink()
    with bench.undisturbed(0):
        commit(bench.repository, [Change((), "Take it back", removed=(NOTE,))])
    assert lost(bench.repository) == ()
    assert not bench.git("for-each-ref", "refs/as-built")


def test_a_merge_that_begins_meanwhile_finds_head_where_it_was(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    merging, head = bench.repository.git_dir / "MERGE_HEAD", bench.head()

    def staged(repository: Repository, places: Sequence[Standing]) -> Answer:
        answer = stage(repository, places)
        merging.write_text(f"{head}\n")
        return answer

    with monkeypatch.context() as patch:
        patch.setattr(route, "stage", staged)
        assert "merge is in progress" in bench.save().waiting[0].sentence
    assert bench.head() == head
    merging.unlink()
    assert bench.save().committed
    assert bench.git("show", f"HEAD:{NOTE}") == "Filed to 178.3 mm.\n"


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


@pytest.mark.parametrize("merging", [True, False])
def test_what_was_taken_away_is_not_let_go_by_committing_it_again(
    bench: Bench, merging: bool
) -> None:
    saved_while_merging(bench)
    bench.git("clean", "-q", "-fd")
    if merging:
        (bench.repository.git_dir / "MERGE_HEAD").write_text(bench.head() + "\n")
    commit(bench.repository, [Change((NOTE,), "From a list that is out of date")])
    (gone,) = lost(bench.repository)
    assert bench.git("cat-file", "blob", gone.blob) == "Filed to 178.3 mm.\n"


def test_an_entry_taken_back_during_a_merge_is_not_missed(bench: Bench) -> None:
    saved_while_merging(bench)
    (bench.repository.git_dir / "MERGE_HEAD").write_text(bench.head() + "\n")
    (bench.top / NOTE).unlink()
    commit(bench.repository, [Change((), "Take it back", removed=(NOTE,))])
    assert lost(bench.repository) == ()


def test_what_the_user_committed_after_all_is_not_missed(bench: Bench) -> None:
    saved_while_merging(bench)
    bench.git("add", FOLDER)
    bench.git("commit", "-q", "-m", "All of it")
    bench.write(NOTE, "And corrected by hand.\n")
    bench.git("commit", "-q", "-a", "-m", "Corrected")
    assert lost(bench.repository) == ()


def stopped_before_the_branch_moved(bench: Bench) -> None:
    """Leave a repository as a program does that is killed between index and branch."""
    bench.note()
    found = bench.repository
    places = tuple(stand(found, found.head(), [NOTE]).values())
    who = "Mara Example <mara@example.org> 1773480000 +0100"
    draft = stream.Draft(b"Note\n", who, who, places)
    assert stream.write(found, stream.coming(found), found.head(), [draft]).good
    assert stage(found, places).good


def test_a_stopped_program_is_finished_by_the_next_run(bench: Bench) -> None:
    stopped_before_the_branch_moved(bench)
    assert waiting(bench.repository) == (NOTE,)
    with bench.undisturbed(1):
        assert bench.save().committed


def test_a_stop_before_the_first_commit_leaves_no_commit_too_many(
    bench: Bench,
) -> None:
    bench.git("switch", "-q", "--orphan", "fresh")
    stopped_before_the_branch_moved(bench)
    assert bench.save().committed
    assert bench.git("rev-list", "--count", "HEAD").strip() == "1"


def test_a_correction_after_the_stop_is_committed_too(bench: Bench) -> None:
    stopped_before_the_branch_moved(bench)
    with bench.undisturbed(1):
        assert bench.save(text="Filed to 178.2 mm.\n").committed
    assert bench.git("show", f"HEAD:{NOTE}") == "Filed to 178.2 mm.\n"


def test_the_users_commit_after_the_stop_takes_the_entry_along(bench: Bench) -> None:
    stopped_before_the_branch_moved(bench)
    bench.git("commit", "-q", "-m", "Mine")
    assert bench.git("show", f"HEAD:{NOTE}") == "Filed to 178.3 mm.\n"


def test_a_reset_after_the_stop_deletes_the_file_and_it_is_said_and_kept(
    bench: Bench,
) -> None:
    stopped_before_the_branch_moved(bench)
    bench.git("reset", "-q", "--hard")
    assert not (bench.top / NOTE).exists()
    for _ in range(2):
        (gone,) = lost(bench.repository)
        assert bench.git("cat-file", "blob", gone.blob) == "Filed to 178.3 mm.\n"
        bench.save(OTHER)
        bench.git("gc", "-q", "--prune=now")


SIGNATURE = "-----BEGIN PGP SIGNATURE-----\n \n iHU=\n -----END PGP SIGNATURE-----"


# --- settings that try to run a program ---


def test_no_program_named_in_the_settings_is_run(bench: Bench, tmp_path: Path) -> None:
    trap, ran = tmp_path / "trap", tmp_path / "ran"
    trap.write_text(f'#!/bin/sh\necho "$0 $@" >> {ran}\n')
    trap.chmod(0o755)
    for key in (
        "core.fsmonitor",
        "core.pager",
        "core.editor",
        "core.sshCommand",
        "core.askPass",
        "sequence.editor",
        "diff.external",
        "diff.trap.textconv",
        "diff.trap.command",
        "credential.helper",
        "gpg.program",
        "uploadpack.packObjectsHook",
        "trailer.sign.command",
        "alias.status",
        "pager.log",
    ):
        bench.git("config", key, str(trap))
    bench.git("config", "log.showSignature", "true")
    head, text = bench.git("cat-file", "commit", "HEAD").split("\n\n", 1)
    signed = f"{head}\ngpgsig {SIGNATURE}\n\n{text}"
    id_ = bench.git("hash-object", "-t", "commit", "-w", "--stdin", given=signed)
    bench.git("update-ref", "HEAD", id_.strip())
    bench.write(".gitattributes", "*.md diff=trap\n")
    ran.unlink(missing_ok=True)
    all_is_asked_and_saved(bench)
    assert not ran.exists(), ran.read_text()


def all_is_asked_and_saved(bench: Bench) -> None:
    from logbook.store.git.history import content_at, differences, log_of

    found, old = bench.repository, bench.head()
    assert isinstance(state(found), Ready)
    assert bench.save().committed
    assert waiting(found) == ()
    new = found.head()
    assert new is not None
    assert differences(found, old, new)
    assert log_of(found, NOTE)
    assert log_of(found, f"{FOLDER}/project.md")
    assert content_at(found, new, NOTE)
    assert lost(found) == ()
    a_correction_waits(bench)


def a_correction_waits(bench: Bench) -> None:
    merging = bench.repository.git_dir / "MERGE_HEAD"
    merging.write_text(bench.head() + "\n")
    assert bench.save(text="waits\n").waiting
    merging.unlink()
    assert waiting(bench.repository) == (NOTE,)


def test_nothing_is_pushed_and_nothing_fetched(bench: Bench, tmp_path: Path) -> None:
    bench.git("clone", "-q", "--bare", ".", str(tmp_path / "remote.git"))
    bench.git("remote", "add", "origin", str(tmp_path / "remote.git"))
    bench.git("push", "-q", "-u", "origin", "main")
    bench.git("config", "push.default", "matching")
    before = bench.git("ls-remote", "origin")
    bench.save()
    assert bench.git("ls-remote", "origin") == before


def test_git_is_loaded_by_no_module_before_a_commit() -> None:
    script = (
        "import sys, logbook.store.git.route, logbook.store.git.history\n"
        "print([m for m in ('git', 'filelock', 'asyncio') if m in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


def test_find_runs_no_git(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    bench.git("pack-refs", "--all")
    monkeypatch.setenv("PATH", "")
    found = Repository.find(bench.top / FOLDER)
    assert found is not None
    assert found.top == bench.top
    assert found.head() is not None
    assert found.branch() == "refs/heads/main"
