"""The route in every kind of repository, and beside all a user does meanwhile."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path

import pytest

from logbook.store.git import stream
from logbook.store.git.message import Change
from logbook.store.git.repository import Repository
from logbook.store.git.route import commit
from logbook.store.git.staging import stage
from logbook.store.git.standing import stand
from logbook.store.git.state import Ready, state
from logbook.store.git.waiting import lost, waiting
from tests.store.git_world import (
    FOLDER,
    NOTE,
    OTHER,
    WHEN,
    Bench,
    made_bench,
    work_begun,
)


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    return made_bench(tmp_path / "stand", monkeypatch)


def saves_new_and_changed(bench: Bench) -> None:
    """Check that a new record, its correction and its removal are committed."""
    with bench.undisturbed(1):
        assert bench.save().committed
    with bench.undisturbed(1):
        assert bench.save(text="Filed to 178.2 mm.\n").committed
    assert bench.git("show", f"HEAD:{NOTE}") == "Filed to 178.2 mm.\n"
    with bench.undisturbed(1):
        (bench.top / NOTE).unlink()
        assert commit(bench.repository, [Change((NOTE,), "Take it back")]).committed
    assert not bench.git("ls-tree", "HEAD", "--", NOTE)
    assert not bench.git("status", "--porcelain", "--", FOLDER)


# --- kinds of repository ---


def test_in_a_linked_work_tree(bench: Bench, tmp_path: Path) -> None:
    work_begun(bench)
    bench.git("worktree", "add", "-q", "-b", "second", str(tmp_path / "second"))
    linked = Bench(tmp_path / "second")
    assert linked.repository.common_dir == bench.repository.git_dir
    before, main = bench.footprint(), bench.head()
    saves_new_and_changed(linked)
    assert (bench.footprint(), bench.head()) == (before, main)
    assert linked.git("branch", "--show-current").strip() == "second"


def test_in_a_submodule(bench: Bench, tmp_path: Path) -> None:
    outer = Bench(tmp_path / "outer")
    outer.top.mkdir()
    outer.git("init", "-q")
    outer.git("submodule", "--quiet", "add", str(bench.top), "stand")
    saves_new_and_changed(Bench(outer.top / "stand"))


@pytest.mark.parametrize("version", ["2", "3", "4"])
def test_with_every_version_of_the_index(bench: Bench, version: str) -> None:
    work_begun(bench)
    bench.git("update-index", "--index-version", version)
    saves_new_and_changed(bench)


def test_with_a_split_index(bench: Bench) -> None:
    bench.git("update-index", "--split-index")
    work_begun(bench)
    saves_new_and_changed(bench)
    assert list(bench.repository.git_dir.glob("sharedindex.*"))


@pytest.mark.parametrize("sparse_index", ["--sparse-index", "--no-sparse-index"])
def test_with_a_sparse_index(bench: Bench, sparse_index: str) -> None:
    bench.git("sparse-checkout", "set", "--cone", sparse_index, FOLDER)
    listed = bench.git("ls-files", "-s", "--sparse")
    assert ("\tdrawings/\n" in listed) == (sparse_index == "--sparse-index")
    saves_new_and_changed(bench)
    assert bench.git("ls-files", "-s", "--sparse") == listed


def test_in_a_sha_256_repository(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = made_bench(tmp_path / "stand", monkeypatch, "--object-format=sha256")
    work_begun(made)
    assert len(made.head()) == 64
    saves_new_and_changed(made)


def test_in_a_shallow_clone(bench: Bench, tmp_path: Path) -> None:
    bench.save(OTHER)
    source = f"file://{bench.top}"
    bench.git("clone", "-q", "--depth", "1", source, str(tmp_path / "shallow"))
    shallow = Bench(tmp_path / "shallow")
    work_begun(shallow)
    saves_new_and_changed(shallow)


def test_in_a_partial_clone_without_fetching_a_blob(
    bench: Bench, tmp_path: Path
) -> None:
    bench.git("config", "uploadpack.allowFilter", "true")
    source = f"file://{bench.top}"
    words = ("--filter=blob:none", "--no-checkout", "--sparse")
    bench.git("clone", "-q", *words, source, str(tmp_path / "part"))
    part = Bench(tmp_path / "part")
    part.git("sparse-checkout", "set", "--cone", FOLDER)
    part.git("checkout", "-q", "main")
    missing = part.git("rev-list", "--objects", "--missing=print", "HEAD")
    assert missing.count("\n?") == 2
    shutil.move(bench.top, tmp_path / "away")
    assert part.save().committed
    assert part.save(text="Filed to 178.2 mm.\n").committed
    again = part.git("rev-list", "--objects", "--missing=print", "HEAD")
    assert again.count("\n?") == 2


def test_in_a_folder_below_the_top(bench: Bench) -> None:
    work_begun(bench)
    path = "designs/copy stand/as-built/notes/7k2m9qzd.md"
    change = bench.note(path)
    found = commit(bench.repository, [change], folder="designs/copy stand/as-built")
    assert found.committed
    assert bench.git("show", f"HEAD:{path}")


@pytest.mark.parametrize(
    "name", ["kärbe-½.md", 'say "so".md', "back\\slash.md", "a b.md", "*.md", "-n.md"]
)
def test_with_odd_file_names(bench: Bench, name: str) -> None:
    work_begun(bench)
    path = f"{FOLDER}/notes/{name}"
    with bench.undisturbed(2):
        bench.save(path)
        bench.save(path, "Filed to 178.2 mm.\n")
    assert waiting(bench.repository) == ()
    assert bench.git("show", f"HEAD:{path}") == "Filed to 178.2 mm.\n"


def test_an_executable_file_keeps_its_mode(bench: Bench) -> None:
    bench.write(NOTE, "x\n").chmod(0o755)
    commit(bench.repository, [Change((NOTE,), "A script")])
    assert bench.git("ls-tree", "HEAD", NOTE).startswith("100755 ")
    assert waiting(bench.repository) == ()


# --- filters and conversions ---


def test_a_clean_filter_makes_the_blob(bench: Bench) -> None:
    bench.git("config", "filter.upper.clean", "tr a-z A-Z")
    bench.git("config", "filter.upper.smudge", "tr A-Z a-z")
    bench.write(f"{FOLDER}/.gitattributes", "*.md filter=upper\n")
    bench.git("add", FOLDER)
    bench.git("commit", "-q", "-m", "Filter the records")
    with bench.undisturbed(1):
        bench.save()
    assert bench.git("show", f"HEAD:{NOTE}") == "FILED TO 178.3 MM.\n"
    assert not bench.git("status", "--porcelain", "--", NOTE)
    assert (bench.top / NOTE).read_text() == "Filed to 178.3 mm.\n"


def test_a_filter_that_must_work_and_does_not_leaves_the_entry_waiting(
    bench: Bench,
) -> None:
    bench.git("config", "filter.broken.clean", "false")
    bench.git("config", "filter.broken.required", "true")
    bench.write(f"{FOLDER}/.gitattributes", "*.md filter=broken\n")
    with bench.undisturbed(0):
        outcome = bench.save()
    assert "clean filter 'broken' failed" in outcome.waiting[0].sentence


@pytest.mark.parametrize("rule", ["text eol=lf", "text", "text=auto eol=crlf"])
def test_line_ends_are_those_git_add_would_write(bench: Bench, rule: str) -> None:
    bench.write(f"{FOLDER}/.gitattributes", f"*.md {rule}\n")
    with bench.undisturbed(1):
        bench.save(text="one\r\ntwo\r\n")
    assert bench.git("cat-file", "blob", f"HEAD:{NOTE}") == "one\ntwo\n"
    assert not bench.git("status", "--porcelain", "--", NOTE)


# --- signing and hooks ---


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


# --- what the user staged ---


def test_a_path_the_user_staged_himself_waits_and_the_rest_goes(bench: Bench) -> None:
    bench.save()
    bench.write(NOTE, "My own wording.\n")
    bench.git("add", NOTE)
    staged = bench.git("ls-files", "-s", NOTE)
    changes = [bench.note(text="Filed to 178.1 mm.\n"), bench.note(OTHER)]
    with bench.undisturbed(1):
        outcome = commit(bench.repository, changes)
    assert [done.change for done in outcome.committed] == changes[1:]
    assert outcome.waiting[0].sentence == (
        f"You have staged {NOTE} yourself; the entry is saved and waits until you "
        f"commit that or take it back with git restore --staged {NOTE}"
    )
    assert bench.git("ls-files", "-s", NOTE) == staged
    bench.git("restore", "--staged", NOTE)
    assert commit(bench.repository, changes[:1]).committed


def test_a_removal_the_user_staged_is_his_own_business(bench: Bench) -> None:
    bench.save()
    bench.git("rm", "-q", "--cached", NOTE)
    with bench.undisturbed(0):
        outcome = bench.save(text="Filed to 178.1 mm.\n")
    assert "You have staged" in outcome.waiting[0].sentence
    assert not bench.git("ls-files", NOTE)


def test_a_conflict_left_by_a_stash_is_not_settled_for_the_user(bench: Bench) -> None:
    bench.save()
    bench.write(NOTE, "Stashed wording.\n")
    bench.git("stash", "-q")
    bench.save(text="Filed to 178.1 mm.\n")
    bench.git("stash", "pop", "-q", fails=True)
    unmerged = bench.git("ls-files", "-u", NOTE)
    assert unmerged
    outcome = bench.save(text="Filed to 178.0 mm.\n")
    assert "You have staged" in outcome.waiting[0].sentence
    assert bench.git("ls-files", "-u", NOTE) == unmerged


def test_an_entry_the_user_has_committed_himself_is_done(bench: Bench) -> None:
    change = bench.note()
    bench.git("add", NOTE)
    bench.git("commit", "-q", "-m", "My own commit")
    with bench.undisturbed(0):
        outcome = commit(bench.repository, [change])
    assert [(d.id, d.ours) for d in outcome.committed] == [(bench.head(), False)]


# --- several entries ---


def test_twenty_entries_are_twenty_commits_in_order(bench: Bench) -> None:
    work_begun(bench)
    paths = [f"{FOLDER}/notes/2603/{number:02}.md" for number in range(20)]
    changes = [bench.note(path, f"Note {path}\n") for path in paths]
    with bench.undisturbed(20):
        outcome = commit(bench.repository, changes)
    ids = bench.git("rev-list", "--reverse", "HEAD~20..HEAD").split()
    assert [done.id for done in outcome.committed] == ids
    for path, id_ in zip(paths, ids, strict=True):
        named = bench.git("show", "--format=", "--name-status", id_)
        assert named == f"A\t{path}\n"


def test_one_change_of_several_files_is_one_commit(bench: Bench) -> None:
    bench.note(OTHER)
    bench.note()
    with bench.undisturbed(1):
        outcome = commit(bench.repository, [Change((NOTE, OTHER, NOTE), "Both")])
    assert len(outcome.committed) == 1


def test_nothing_to_commit_makes_no_commit(bench: Bench) -> None:
    bench.save()
    with bench.undisturbed(0):
        assert commit(bench.repository, []).committed == ()
        assert not bench.save().committed[0].ours


def test_a_removal_and_a_restoration_are_new_commits(bench: Bench) -> None:
    bench.save()
    with bench.undisturbed(2):
        (bench.top / NOTE).unlink()
        commit(bench.repository, [Change((NOTE,), "Take back the note")])
        bench.save()
    shown = bench.git("log", "--format=%s", "--name-status", "-3", "--", NOTE).split()
    assert [word for word in shown if len(word) == 1] == ["A", "D", "A"]


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
    paths = [f"{FOLDER}/notes/2603/{number:02}.md" for number in range(25)]
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
        commit(bench.repository, [Change((NOTE,), "Take it back")])
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
    bench.write(".gitattributes", "*.md diff=trap\n")
    ran.unlink(missing_ok=True)
    saves_at_rest(bench)
    assert not ran.exists(), ran.read_text()


def saves_at_rest(bench: Bench) -> None:
    from logbook.store.git.history import content_at, differences, log_of, tracked

    found, old = bench.repository, bench.head()
    assert isinstance(state(found), Ready)
    assert bench.save().committed
    assert waiting(found) == ()
    new = found.head()
    assert new is not None
    assert differences(found, old, new)
    assert log_of(found, NOTE)
    assert tracked(found)
    assert content_at(found, new, NOTE)
    assert lost(found) == ()
    saved_while_merging_text(bench)


def saved_while_merging_text(bench: Bench) -> None:
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
