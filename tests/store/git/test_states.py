"""Each state a repository can be in: what is said, and that nothing is touched."""

from __future__ import annotations

import os
import subprocess
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from logbook.errors import Refused
from logbook.store.git.message import Change
from logbook.store.git.repository import Repository
from logbook.store.git.route import commit
from logbook.store.git.state import Ready, Refuses, Waits
from logbook.store.git.survey import state
from logbook.store.git.waiting import waiting
from tests.store.git_world import (
    FOLDER,
    NOTE,
    Bench,
    work_begun,
)


def waits(bench: Bench, words: str) -> None:
    """Check that an entry waits, is counted, kept and said so, and nothing changes."""
    with bench.undisturbed(0):
        outcome = bench.save()
        found = state(bench.repository)
        assert isinstance(found, Waits)
        assert words in found.sentence
        assert [late.sentence for late in outcome.waiting] == [found.sentence]
        assert waiting(bench.repository) == (NOTE,)
    held = bench.git("show", f"refs/as-built/waiting/main:{NOTE}")
    assert held == "Filed to 178.3 mm.\n"


def commits_later(bench: Bench) -> None:
    """Check that what waited is committed once the state is over."""
    assert state(bench.repository) == Ready()
    with bench.undisturbed(1):
        outcome = bench.save()
    assert not outcome.waiting
    assert not waiting(bench.repository)
    assert not bench.git("for-each-ref", "refs/as-built")


def test_an_entry_becomes_one_commit_and_the_work_begun_stays(bench: Bench) -> None:
    work_begun(bench)
    with bench.undisturbed(1):
        outcome = bench.save()
    assert [done.id for done in outcome.committed] == [bench.head()]
    assert bench.git("show", f"HEAD:{NOTE}") == "Filed to 178.3 mm.\n"
    assert bench.git("log", "-1", "--format=%an %ae %aI %s").strip() == (
        "Mara Example mara@example.org 2026-03-14T10:15:22+01:00 Note 7k2m9qzd"
    )
    assert f"\t{NOTE}" in bench.git("ls-files", "-s", "-v")
    assert not bench.git("status", "--porcelain", "--", FOLDER)


def test_the_first_entry_of_an_unborn_branch_is_its_first_commit(bench: Bench) -> None:
    bench.git("switch", "-q", "--orphan", "fresh")
    bench.write("drawings/base.dxf", "0\nEOF\n")
    bench.git("add", "drawings/base.dxf")
    found = state(bench.repository)
    assert found == Ready("This branch has no commit yet: the entry will be its first.")
    with bench.undisturbed(1):
        bench.save()
    assert bench.git("rev-list", "--count", "HEAD").strip() == "1"


def test_an_unborn_branch_with_a_remote_waits_for_the_pull(bench: Bench) -> None:
    bench.git("switch", "-q", "--orphan", "fresh")
    bench.git("remote", "add", "origin", "https://example.org/stand.git")
    before = bench.footprint()
    outcome = bench.save()
    assert bench.footprint() == before
    assert "no commit yet and a remote is set" in outcome.waiting[0].sentence
    bench.git("remote", "remove", "origin")
    bench.save()
    assert bench.git("rev-list", "--count", "HEAD").strip() == "1"


def test_a_detached_head_waits(bench: Bench) -> None:
    bench.git("checkout", "-q", "--detach")
    waits(bench, "HEAD is detached")
    bench.git("checkout", "-q", "main")
    commits_later(bench)


def conflict(bench: Bench) -> None:
    """Give two branches that disagree about a drawing."""
    bench.git("switch", "-q", "-c", "other")
    bench.write("drawings/base.dxf", "other\n")
    bench.git("commit", "-q", "-a", "-m", "Draw it otherwise")
    bench.git("switch", "-q", "main")
    bench.write("drawings/base.dxf", "main\n")
    bench.git("commit", "-q", "-a", "-m", "Draw it so")


def begin_am(bench: Bench) -> None:
    patch = bench.git("format-patch", "--stdout", "-1", "other")
    bench.git("am", "-q", given=patch, fails=True)


def begin_bisect(bench: Bench) -> None:
    bench.git("bisect", "start")


@pytest.mark.parametrize(
    ("begin", "words", "end"),
    [
        (("merge", "-q", "other"), "A merge is in progress", ("merge", "--abort")),
        (("rebase", "other"), "A rebase is in progress", ("rebase", "--abort")),
        (
            ("rebase", "--apply", "other"),
            "A rebase is in progress",
            ("rebase", "--abort"),
        ),
        (
            ("cherry-pick", "other"),
            "A cherry-pick is in progress",
            ("cherry-pick", "--abort"),
        ),
        (("revert", "HEAD~1"), "A revert is in progress", ("revert", "--abort")),
        (begin_am, "A git am is in progress", ("am", "--abort")),
        (begin_bisect, "A bisect is in progress", ("bisect", "reset")),
    ],
)
def test_what_is_in_progress_is_waited_for(
    bench: Bench,
    begin: tuple[str, ...] | Callable[[Bench], None],
    words: str,
    end: tuple[str, ...],
) -> None:
    conflict(bench)
    if begin == ("revert", "HEAD~1"):
        bench.write("drawings/base.dxf", "again\n")
        bench.git("commit", "-q", "-a", "-m", "Draw it again")
    if callable(begin):
        begin(bench)
    else:
        bench.git(*begin, fails=True)
    waits(bench, words)
    bench.git(*end)
    commits_later(bench)


def test_picks_between_two_commits_are_waited_for(bench: Bench) -> None:
    conflict(bench)
    bench.git("cherry-pick", "other", "main~1", fails=True)
    bench.write("drawings/base.dxf", "settled\n")
    bench.git("add", "drawings/base.dxf")
    bench.git("commit", "-q", "-m", "Settle it")
    waits(bench, "A series of cherry-picks or reverts is in progress")


def test_a_fresh_index_lock_is_waited_for_as_long_as_asked(bench: Bench) -> None:
    lock = bench.repository.git_dir / "index.lock"
    lock.touch()
    change = bench.note()
    before = bench.footprint()
    outcome = commit(bench.repository, [change], patience_s=0.2)
    assert "Another git command holds the index" in outcome.waiting[0].sentence
    assert bench.footprint() == before
    lock.unlink()
    commits_later(bench)


def test_an_index_lock_let_go_in_time_is_no_matter(bench: Bench) -> None:
    lock = bench.repository.git_dir / "index.lock"
    lock.touch()
    change = bench.note()
    freeing = subprocess.Popen(["sh", "-c", f"sleep 0.3; rm {lock}"])
    outcome = commit(bench.repository, [change], patience_s=5)
    freeing.wait()
    assert outcome.committed


def test_an_old_index_lock_is_named_with_its_age(bench: Bench) -> None:
    lock = bench.repository.git_dir / "index.lock"
    lock.touch()
    old = time.time() - 3 * 3600
    os.utime(lock, (old, old))
    outcome = bench.save()
    assert "locked for 180 min" in outcome.waiting[0].sentence
    assert str(lock) in outcome.waiting[0].sentence
    lock.unlink()
    commits_later(bench)


def test_without_an_identity_entries_wait(bench: Bench) -> None:
    settings = Path(os.environ["GIT_CONFIG_GLOBAL"])
    known = settings.read_text()
    settings.write_text("[user]\n\tuseConfigOnly = true\n")
    waits(bench, "git does not know your name yet: set it with git config --global")
    settings.write_text(known)
    commits_later(bench)


def test_names_from_the_surroundings_are_used(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("GIT_AUTHOR_NAME", "Jo Example, jr.")
    monkeypatch.setenv("GIT_COMMITTER_DATE", "1773480000 +0200")
    bench.git("config", "committer.email", "shop@example.org")
    bench.save()
    line = bench.git("log", "-1", "--format=%an %ae|%cn %ce %cI").strip()
    assert line == (
        "Jo Example, jr mara@example.org"
        "|Mara Example shop@example.org 2026-03-14T11:20:00+02:00"
    )


@pytest.fixture
def closed(bench: Bench) -> Iterator[Bench]:
    """Make the git directory unwritable, for root too: by a read-only mount."""
    place = bench.repository.git_dir
    if os.geteuid():
        place.chmod(0o555)
        yield bench
        place.chmod(0o755)
        return
    for words in (("--bind", str(place)), ("-o", "remount,ro,bind")):
        if subprocess.run(["mount", *words, str(place)], check=False).returncode:
            pytest.skip("root may not mount here")
    yield bench
    subprocess.run(["umount", str(place)], check=True)


def test_on_a_read_only_disk_entries_wait(closed: Bench) -> None:
    with closed.undisturbed(0):
        outcome = closed.save()
    assert "cannot be written (read-only" in outcome.waiting[0].sentence
    assert waiting(closed.repository) == (NOTE,)


def refuses(bench: Bench, words: str, folder: str = FOLDER) -> None:
    found = state(bench.repository, folder)
    assert isinstance(found, Refuses)
    assert words in found.sentence
    change = bench.note(f"{folder}/notes/2603/7k2m9qzd-crossbar-filed.md")
    outcome = commit(bench.repository, [change], folder=folder)
    assert [late.sentence for late in outcome.waiting] == [found.sentence]
    assert not outcome.committed


def test_a_bare_repository_is_refused(bench: Bench, tmp_path: Path) -> None:
    bench.git("clone", "-q", "--bare", ".", str(tmp_path / "stand.git"))
    bare = Bench(tmp_path / "stand.git")
    assert bare.repository.bare
    refuses(bare, "is a bare repository")


def test_a_work_tree_declared_bare_is_refused(bench: Bench) -> None:
    bench.git("config", "core.bare", "true")
    refuses(bench, "is a bare repository")


def test_dubious_ownership_is_refused_with_the_way_out(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("GIT_TEST_ASSUME_DIFFERENT_OWNER", "1")
    refuses(bench, f"git config --global --add safe.directory {bench.top}")


@pytest.mark.parametrize("listed", ["drawings", f"{FOLDER}/failures"])
def test_records_outside_the_sparse_cone_are_refused(bench: Bench, listed: str) -> None:
    bench.git("sparse-checkout", "set", "--cone", listed)
    refuses(bench, f"git sparse-checkout add {FOLDER}")


def test_records_outside_a_sparse_checkout_by_pattern_are_refused(bench: Bench) -> None:
    bench.git("sparse-checkout", "set", "--no-cone", "/drawings/")
    refuses(bench, f"{FOLDER}/ is outside the sparse checkout")


def test_a_repository_git_cannot_read_is_refused(bench: Bench) -> None:
    (bench.repository.git_dir / "config").write_text("[core\n")
    refuses(bench, "git cannot read this repository: fatal: bad config line 1")


def test_a_work_tree_that_lies_elsewhere_is_refused(
    bench: Bench, tmp_path: Path
) -> None:
    (tmp_path / "elsewhere").mkdir()
    bench.git("config", "core.worktree", str(tmp_path / "elsewhere"))
    refuses(bench, "as its work tree (core.worktree)")
    assert not any((tmp_path / "elsewhere").iterdir())


def test_without_git_entries_wait(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", "/nowhere")
    refuses(bench, "git was not found")


def test_an_ignored_folder_is_warned_about_and_committed(bench: Bench) -> None:
    bench.write(".gitignore", "as-built/\n")
    found = state(bench.repository)
    assert isinstance(found, Ready)
    assert "as-built/ is ignored by git (.gitignore:1:as-built/)" in found.remark
    bench.note()
    assert waiting(bench.repository) == (NOTE,)
    with bench.undisturbed(1):
        bench.save()
    assert waiting(bench.repository) == ()


def test_started_from_a_hook_with_its_own_index_entries_wait(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    change = bench.note()
    monkeypatch.setenv("GIT_INDEX_FILE", str(bench.top / ".git/next-index-1.lock"))
    outcome = commit(bench.repository, [change])
    assert "GIT_INDEX_FILE is set" in outcome.waiting[0].sentence
    monkeypatch.delenv("GIT_INDEX_FILE")
    bench.sound()


def test_a_path_outside_the_folder_is_refused(bench: Bench) -> None:
    for path in ("README.md", f"{FOLDER}/../README.md"):
        with pytest.raises(Refused, match="is not in as-built/"):
            bench.save(path, "# Mine\n")


def test_a_path_that_is_no_plain_file_waits_and_the_others_go(bench: Bench) -> None:
    link = bench.top / f"{FOLDER}/link.md"
    link.symlink_to("/etc/hostname")
    (bench.top / f"{FOLDER}/two\nlines.md").write_text("x")
    names = (f"{FOLDER}/link.md", f"{FOLDER}/two\nlines.md")
    odd = [bench.note()] + [Change((name,), "odd") for name in names]
    outcome = commit(bench.repository, odd)
    assert len(outcome.committed) == 1
    assert [late.sentence for late in outcome.waiting] == [
        "as-built/link.md is not a plain file, and only those are committed.",
        f"{names[1]!r} has signs in its name that do not belong in a file name.",
    ]


def test_no_repository_is_found_where_there_is_none(tmp_path: Path) -> None:
    assert Repository.find(tmp_path) is None
