"""The route in every kind of repository, and around what the user has staged."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from logbook.store.git.message import Change
from logbook.store.git.route import commit
from logbook.store.git.waiting import waiting
from tests.store.git_world import (
    FOLDER,
    NOTE,
    OTHER,
    Bench,
    made_bench,
    work_begun,
)


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
    bench.save(OTHER)
    work_begun(bench)
    bench.git("update-index", "--index-version", version)
    saves_new_and_changed(bench)


def test_with_a_split_index(bench: Bench) -> None:
    bench.save(OTHER)
    bench.git("update-index", "--split-index")
    work_begun(bench)
    saves_new_and_changed(bench)
    with bench.undisturbed(1):
        assert bench.save(OTHER, "Drilled out again.\n").committed
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


def test_where_the_user_has_replaced_a_commit_its_own_tree_is_gone_on_with(
    bench: Bench,
) -> None:
    blob = bench.git("hash-object", "-w", "--stdin", given="not committed here\n")
    listed = bench.git("ls-tree", "HEAD") + f"100644 blob {blob.strip()}\tother.txt\n"
    tree = bench.git("mktree", given=listed).strip()
    other = bench.git("commit-tree", tree, "-m", "Draw it otherwise").strip()
    bench.git("replace", bench.head(), other)
    assert bench.save().committed
    names = bench.git("--no-replace-objects", "ls-tree", "--name-only", "HEAD")
    assert "other.txt" not in names.split()
    changed = ("diff-tree", "-r", "--no-commit-id", "--name-only", "HEAD")
    assert bench.git("--no-replace-objects", *changed).split() == [NOTE]


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


def test_where_the_disk_knows_no_modes_the_one_in_head_stays(bench: Bench) -> None:
    bench.write(NOTE, "x\n").chmod(0o755)
    commit(bench.repository, [Change((NOTE,), "A script")])
    bench.git("config", "core.fileMode", "false")
    bench.write(NOTE, "y\n").chmod(0o644)
    commit(bench.repository, [Change((NOTE,), "The script, changed")])
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
