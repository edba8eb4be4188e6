"""Signing and the user's hooks: `git commit` has its say, and its time."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from logbook.store.git import staging, through_commit
from logbook.store.git.command import Answer
from logbook.store.git.route import commit
from logbook.store.git.staging import Held
from logbook.store.git.waiting import waiting
from tests.store.git_world import (
    NOTE,
    OTHER,
    WHEN,
    Bench,
    work_begun,
)


def ssh_key(bench: Bench, home: Path) -> None:
    key = home / "key"
    words = ("-q", "-t", "ed25519", "-N", "", "-C", "mara@example.org", "-f", str(key))
    subprocess.run(["ssh-keygen", *words], check=True)
    allowed = home / "allowed"
    allowed.write_text(f"mara@example.org {key.with_suffix('.pub').read_text()}")
    bench.git("config", "gpg.format", "ssh")
    bench.git("config", "user.signingKey", str(key))
    bench.git("config", "gpg.ssh.allowedSignersFile", str(allowed))


@pytest.mark.skipif(not shutil.which("ssh-keygen"), reason="needs ssh-keygen")
def test_a_user_who_signs_gets_signed_entries(bench: Bench, tmp_path: Path) -> None:
    ssh_key(bench, tmp_path / "home")
    bench.git("config", "commit.gpgSign", "true")
    work_begun(bench)
    with bench.undisturbed(2):
        assert bench.save().committed
        assert bench.save(text="Filed to 178.2 mm.\n").committed
    assert bench.git("log", "-2", "--format=%G?").split() == ["G", "G"]
    assert bench.git("log", "-1", "--format=%aI").strip() == WHEN.isoformat()


def test_a_signing_program_that_fails_leaves_the_entry_waiting(bench: Bench) -> None:
    program = bench.top / ".git/gpg"
    program.write_text("#!/bin/sh\nexit 1\n")
    program.chmod(0o755)
    bench.git("config", "commit.gpgSign", "true")
    bench.git("config", "gpg.program", str(program))
    work_begun(bench)
    with bench.undisturbed(0):
        outcome = bench.save()
    assert "did not take the entry (signing): " in outcome.waiting[0].sentence
    assert waiting(bench.repository) == (NOTE,)
    assert f"\t{NOTE}" not in bench.git("ls-files", "-s")
    bench.git("config", "commit.gpgSign", "false")
    assert bench.save().committed


@pytest.mark.parametrize(
    ("hook", "subject"),
    [
        ("pre-commit", "Note 7k2m9qzd"),
        ("prepare-commit-msg", "Note 7k2m9qzd (seen)"),
        ("commit-msg", "Note 7k2m9qzd (seen)"),
        ("post-commit", "Note 7k2m9qzd"),
    ],
)
def test_each_commit_hook_of_the_user_has_its_say(
    bench: Bench, hook: str, subject: str
) -> None:
    edit = 'sed -i "1s/$/ (seen)/" "$1"' if hook.endswith("-msg") else ":"
    bench.hook(hook, f"{edit}; echo ran >> .git/ran; ! test -t 0 && ! test -t 1")
    work_begun(bench)
    with bench.undisturbed(1):
        assert bench.save().committed
    assert bench.git("log", "-1", "--format=%s").strip() == subject
    assert (bench.top / ".git/ran").read_text() == "ran\n"


@pytest.mark.parametrize("hook", ["pre-commit", "prepare-commit-msg", "commit-msg"])
def test_a_hook_that_says_no_leaves_the_entry_waiting(bench: Bench, hook: str) -> None:
    bench.hook(hook, "echo 'error: no entries on Fridays' >&2; exit 1")
    work_begun(bench)
    bench.git("add", "-f", "drawings/mask.dxf")
    with bench.undisturbed(0):
        outcome = bench.save()
    assert f"(the {hook} hook): error: no entries on Fr" in outcome.waiting[0].sentence
    assert waiting(bench.repository) == (NOTE,)
    assert f"\t{NOTE}" not in bench.git("ls-files", "-s")


def test_a_branch_moved_by_somebody_else_is_not_taken_for_our_commit(
    bench: Bench,
) -> None:
    mine = "git commit-tree -m Mine -p HEAD HEAD^{tree}"
    bench.hook("pre-commit", f"git update-ref HEAD $({mine}); exit 1")
    outcome = bench.save()
    assert len(outcome.waiting) == 1
    assert bench.git("log", "-1", "--format=%s").strip() == "Mine"
    assert not bench.git("ls-files", NOTE)


def then(monkeypatch: pytest.MonkeyPatch, happens: Callable[[], object]) -> None:
    """Let something happen right after we have staged what `git commit` is to take."""
    stage = staging.stage

    def stage_and_then(*given: Any) -> Answer:
        answer = stage(*given)
        happens()
        return answer

    monkeypatch.setattr(through_commit, "stage", stage_and_then)


@pytest.mark.parametrize(
    ("module", "name"), [(through_commit, "take_out"), (staging, "hold")]
)
def test_what_the_users_commit_took_along_is_not_taken_out_of_his_index(
    bench: Bench, monkeypatch: pytest.MonkeyPatch, module: ModuleType, name: str
) -> None:
    bench.hook("pre-commit", "exit 1")
    goes_on, left = getattr(module, name), ["Mine"]

    def after_the_user(*given: Any) -> Any:
        while left:
            bench.git("commit", "-q", "--no-verify", "-m", left.pop())
        return goes_on(*given)

    monkeypatch.setattr(module, name, after_the_user)
    bench.save()
    assert not left
    assert bench.git("show", f"HEAD:{NOTE}") == "Filed to 178.3 mm.\n"
    assert bench.git("status", "--porcelain") == ""


def test_what_the_user_staged_meanwhile_stays_staged(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    bench.save()
    bench.hook("pre-commit", "exit 1")

    def user() -> None:
        bench.write(NOTE, "Filed to 178.1 mm, says the user.\n")
        bench.git("add", NOTE)

    staged = staging.staged_now

    def staged_and_then(*given: Any) -> Held:
        held = staged(*given)
        user()
        return held

    monkeypatch.setattr(through_commit, "staged_now", staged_and_then)
    assert bench.save(text="Filed to 178.2 mm.\n").waiting
    assert bench.git("show", f":{NOTE}") == "Filed to 178.1 mm, says the user.\n"


def test_what_a_killed_program_had_staged_is_not_taken_for_the_users(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    bench.save()
    bench.hook("pre-commit", "exit 0")

    class Killed(Exception):
        pass

    def killed() -> None:
        raise Killed

    with monkeypatch.context() as patch:
        then(patch, killed)
        with pytest.raises(Killed):
            bench.save(text="Filed to 178.2 mm.\n")
    assert bench.save(text="Filed to 178.1 mm.\n").committed
    assert bench.git("status", "--porcelain") == ""


def test_a_hook_set_by_hooks_path_and_one_not_executable(bench: Bench) -> None:
    bench.hook("pre-commit", "exit 1").chmod(0o644)
    assert bench.save().committed
    other = bench.top / "hooks"
    other.mkdir()
    (other / "pre-commit").write_text("#!/bin/sh\nexit 1\n")
    (other / "pre-commit").chmod(0o755)
    bench.git("config", "core.hooksPath", "hooks")
    assert bench.save(OTHER).waiting


def gone(process: int) -> bool:
    """Tell whether a process has ended, reaped or not."""
    try:
        facts = Path(f"/proc/{process}/stat").read_text()
    except FileNotFoundError:
        return True
    return facts.rpartition(")")[2].split()[0] == "Z"


def test_a_hook_that_hangs_is_ended_with_all_it_started(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("logbook.store.git.through_commit.LIMIT_S", 1.0)
    bench.hook("pre-commit", "trap '' TERM; sleep 987 & echo $! > .git/sleeper; wait")
    work_begun(bench)
    changes = [bench.note(), bench.note(OTHER)]
    with bench.undisturbed(0):
        outcome = commit(bench.repository, changes)
    assert len(outcome.waiting) == 2
    assert "git commit took longer than 1 s" in outcome.waiting[1].sentence
    assert gone(int((bench.top / ".git/sleeper").read_text()))
    (bench.repository.common_dir / "hooks/pre-commit").unlink()
    with bench.undisturbed(2):
        assert len(commit(bench.repository, changes).committed) == 2
