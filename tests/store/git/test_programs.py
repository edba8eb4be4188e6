"""No program named in the settings runs, and nothing is fetched or pushed."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from logbook.store.git.repository import Repository
from logbook.store.git.state import Ready
from logbook.store.git.survey import state
from logbook.store.git.waiting import lost, waiting
from tests.store.git_world import (
    FOLDER,
    NOTE,
    Bench,
)

SIGNATURE = "-----BEGIN PGP SIGNATURE-----\n \n iHU=\n -----END PGP SIGNATURE-----"


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


def a_correction_waits(bench: Bench) -> None:
    merging = bench.repository.git_dir / "MERGE_HEAD"
    merging.write_text(bench.head() + "\n")
    assert bench.save(text="waits\n").waiting
    merging.unlink()
    assert waiting(bench.repository) == (NOTE,)


def all_is_asked_and_saved(bench: Bench) -> None:
    from logbook.store.git.history import content_at, log_of

    found = bench.repository
    assert isinstance(state(found), Ready)
    assert bench.save().committed
    assert waiting(found) == ()
    new = found.head()
    assert new is not None
    assert log_of(found, NOTE)
    assert log_of(found, f"{FOLDER}/project.md")
    assert content_at(found, new, NOTE)
    assert lost(found) == ()
    a_correction_waits(bench)


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
        "print([m for m in ('git', 'asyncio') if m in sys.modules])"
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
