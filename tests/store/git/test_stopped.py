"""A program stopped before the branch moved is finished by the next."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

import pytest

from logbook.store.git import stream
from logbook.store.git.route import commit
from logbook.store.git.staging import stage
from logbook.store.git.standing import stand
from logbook.store.git.waiting import lost, waiting
from tests.store.git_world import (
    NOTE,
    OTHER,
    Bench,
)


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


def until(there: Path) -> None:
    """Wait until a file is there."""
    end = time.monotonic() + 30
    while not there.exists():
        assert time.monotonic() < end, f"{there} never came"
        time.sleep(0.02)


SLOW_GIT = """#!/bin/sh
case "$*" in
*update-index*) touch {0}/staging; while test ! -e {0}/go_on; do sleep 0.02; done ;;
esac
exec {1} "$@"
"""


def test_a_git_that_outlives_its_killed_program_is_waited_for(
    bench: Bench, tmp_path: Path
) -> None:
    slow = tmp_path / "bin/git"
    slow.parent.mkdir()
    slow.write_text(SLOW_GIT.format(tmp_path, shutil.which("git")))
    slow.chmod(0o755)
    script = (
        "from pathlib import Path\n"
        "from tests.store.git_world import Bench\n"
        f"Bench(Path({str(bench.top)!r})).save()\n"
    )
    program = subprocess.Popen(
        [sys.executable, "-c", script],
        cwd=Path(__file__).parents[3],
        env=os.environ | {"PATH": f"{slow.parent}:{os.environ['PATH']}"},
    )
    try:
        until(tmp_path / "staging")
        program.kill()
        program.wait()
        found = commit(bench.repository, [bench.note(OTHER)], patience_s=0.1)
        (late,) = found.waiting
        assert "Another logbook is committing" in late.sentence
    finally:  # else its git waits on after the test
        (tmp_path / "go_on").touch()
    assert bench.save(OTHER).committed
    assert bench.save(text="Filed to 178.2 mm.\n").committed
    assert bench.git("status", "--porcelain") == ""


def test_a_lock_a_killed_git_left_on_our_own_references_is_removed_when_old(
    bench: Bench,
) -> None:
    lock = bench.repository.common_dir / f"{stream.coming(bench.repository)}.lock"
    lock.parent.mkdir(parents=True)
    lock.touch()
    late = commit(bench.repository, [bench.note()], patience_s=0)
    assert "busy" in late.waiting[0].sentence
    os.utime(lock, (0, 0))
    with bench.undisturbed(1):
        assert bench.save().committed


@pytest.mark.parametrize("left", ["HEAD", "refs/heads/main", "packed-refs"])
def test_a_lock_a_killed_git_left_on_the_branch_is_named(
    bench: Bench, left: str
) -> None:
    lock = bench.repository.git_dir / f"{left}.lock"
    lock.touch()
    os.utime(lock, (time.time() - 180,) * 2)
    (late,) = commit(bench.repository, [bench.note()]).waiting
    assert f"locked for 3 min: if no git command is running, remove {lock}" in (
        late.sentence
    )
    lock.unlink()
    assert bench.save().committed
