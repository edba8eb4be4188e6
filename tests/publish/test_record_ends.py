"""Who asks an old record of what he holds hears where it ends, and what is newer.

The scene is the copy stand; all of it is invented.
"""

from __future__ import annotations

import io
import shutil
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path

import pytest

from logbook.cli import main
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")

FILES = ("errata", "--files", "drawings/base.dxf")


def heard(folder: Path, *words: str) -> tuple[int, str]:
    """Run a verb in a folder that is no stand any more."""
    said = io.StringIO()
    with redirect_stdout(said), redirect_stderr(said):
        code = main([words[0], "--in", str(folder), *words[1:]])
    return code, said.getvalue()


def last(stand: Stand) -> str:
    path = stand.bench.top / "drawings/base.dxf"
    return stand.look("errata", "--files", str(path))[1].splitlines()[-1]


def test_a_record_that_has_all_of_its_repository_says_when_it_ends(
    stand: Stand,
) -> None:
    said = last(stand)
    assert said.startswith("this record ends 20")
    assert "its newest release is 1.1" in said
    assert "is not in it: look at https://example.org/copy-stand" in said


def test_in_a_checkout_of_an_old_release_the_newer_one_is_named_with_the_way_to_it(
    stand: Stand,
) -> None:
    branch = stand.bench.git("branch", "--show-current").strip()
    stand.bench.git("checkout", "-q", "as-built/1.0")
    said = last(stand)
    assert "its newest release is 1.0; in this repository and not in it: rel" in said
    assert "release 1.1" in said
    assert "this record is not the newest: in this repos" in stand.look("check")[1]
    command = said.partition("to have it: git ")[2]
    assert command == f"switch {branch}"
    stand.bench.git(*command.split())
    assert "in this repository and not in it" not in last(stand)
    assert "not the newest" not in stand.look("check")[1]


def test_where_only_the_tag_of_a_newer_release_is_here_the_tag_is_the_way(
    stand: Stand,
) -> None:
    stand.bench.git("checkout", "-q", "-B", "mine", "as-built/1.0")
    for branch in stand.bench.git("branch", "--format=%(refname:short)").split():
        if branch != "mine":
            stand.bench.git("branch", "-q", "-D", branch)
    assert last(stand).endswith("to have it: git switch --detach as-built/1.1")


def test_a_clone_behind_what_it_fetched_is_told_what_to_merge(
    stand: Stand, tmp_path: Path
) -> None:
    clone = tmp_path / "clone"
    stand.bench.git("clone", "-q", str(stand.bench.top), str(clone))
    main_branch = stand.bench.git("branch", "--show-current").strip()
    stand.bench.git("-C", str(clone), "tag", "-d", "as-built/1.1")
    stand.bench.git("-C", str(clone), "reset", "-q", "--hard", "as-built/1.0")
    said = heard(clone, "errata", "--files", str(clone / "drawings/base.dxf"))[1]
    assert f"to have it: git merge --ff-only origin/{main_branch}" in said


def test_an_unpacked_release_is_told_where_what_is_newer_may_be(
    stand: Stand, tmp_path: Path
) -> None:
    unpacked = tmp_path / "unpacked"
    shutil.copytree(stand.bench.top, unpacked, ignore=shutil.ignore_patterns(".git"))
    drawing = str(unpacked / "drawings/base.dxf")
    code, said = heard(unpacked, "errata", "--files", drawing)
    assert code == 4
    assert f"in such a clone: logbook errata --files {drawing}" in said
    stand.bench.git("init", "-q", str(unpacked))
    said = heard(unpacked, "errata", "--files", drawing)[1]
    assert "what was found since is not in it: look at https://example" in said


def test_who_has_files_and_no_logbook_is_sent_to_a_clone_and_not_to_begin_one(
    tmp_path: Path,
) -> None:
    (tmp_path / "base.dxf").write_text("0\nEOF\n")
    code, said = heard(tmp_path, "errata", "--files", str(tmp_path / "base.dxf"))
    assert code == 4
    assert f"in such a clone: logbook errata --files {tmp_path / 'base.dxf'}" in said
    assert "logbook start" not in said
