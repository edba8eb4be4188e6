"""An entry taken back in one clone and amended in another: nothing of it is lost."""

from __future__ import annotations

import shlex
from dataclasses import replace
from pathlib import Path

import pytest

from logbook.cli import main
from logbook.project import Project
from logbook.quantity import parse_quantity
from logbook.records.kinds.happenings import Run
from logbook.records.kinds.workshop import Piece
from tests.cli.test_clones import Bench, clones, git, shop


def merged(place: Path) -> Bench:
    """Measure here, amend it there, take it back here, then merge what came of it."""
    here, there = clones(place, 2)
    shop(here, "10:00", "measure", "collar", "hole", "4.35 mm")
    there.pull(here)
    project = Project.open(there.folder)
    [run] = project.snapshot.all(Run)
    [reading] = run.readings
    draft = project.draft(run.when)
    put_right = replace(reading, value=parse_quantity("4.53 mm"))
    draft.amend(replace(run, readings=(put_right,)))
    project.save(draft, "amended", run.when)
    project.commit_waiting()
    assert main(["undo", "--in", str(here.folder)]) == 0
    assert not Project.open(here.folder).snapshot.all(Piece)
    git(here.folder, "fetch", "-q", str(there.folder), "main")
    assert git(here.folder, "merge", "-q", "FETCH_HEAD", check=False).returncode
    return here


def values(bench: Bench) -> list[str]:
    runs = Project.open(bench.folder).snapshot.all(Run)
    return [str(one.value) for run in runs for one in run.readings]


def finish(bench: Bench, said: str) -> None:
    """Do as settle says last."""
    add = said.partition("then: ")[2].splitlines()[0].removesuffix(" && git commit")
    git(bench.folder, *shlex.split(add)[1:])
    git(bench.folder, "commit", "-q", "--no-edit")


def test_settle_says_what_keeps_it_and_what_it_names_that_is_gone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here = merged(tmp_path)
    capsys.readouterr()
    assert main(["settle", "--in", str(here.folder)]) == 0
    said = capsys.readouterr().out
    assert (
        "removed here, amended there; it stands as amended: git add as-built/" in said
    )
    assert "takes it away" in said
    for gone in ("collar-1", "hole"):
        assert f"names “{gone} " in said
    assert said.count("logbook settle --bring-back writes it again") >= 2
    # Nothing is written until it is told to.
    assert not Project.open(here.folder).snapshot.all(Piece)


def test_settle_brings_back_what_is_named_in_any_clone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here = merged(tmp_path)
    main(["settle", "--in", str(here.folder)])
    finish(here, capsys.readouterr().out)
    assert Project.open(here.folder).snapshot.problems
    # A third clone knows nothing of what was taken back where.
    git(tmp_path, "clone", "-q", str(here.folder), "third")
    third = Bench(tmp_path / "third", 3)
    git(third.folder, "config", "user.name", "third")
    git(third.folder, "config", "user.email", "third@invalid")
    assert main(["settle", "--bring-back", "--in", str(third.folder)]) == 0
    assert "collar-1  [" in capsys.readouterr().out
    snapshot = Project.open(third.folder).snapshot
    assert not snapshot.problems
    assert [piece.title for piece in snapshot.all(Piece)] == ["collar-1"]
    assert values(third) == ["4.53 mm"]
    assert "as-built" not in git(third.folder, "status", "--porcelain").stdout


def test_undo_brings_back_what_is_gone_and_leaves_what_was_amended(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here = merged(tmp_path)
    main(["settle", "--in", str(here.folder)])
    finish(here, capsys.readouterr().out)
    assert main(["undo", "--bring-back", "--in", str(here.folder)]) == 0
    snapshot = Project.open(here.folder).snapshot
    assert not snapshot.problems
    assert [piece.title for piece in snapshot.all(Piece)] == ["collar-1"]
    assert values(here) == ["4.53 mm"]


def test_who_takes_it_away_all_the_same_is_left_with_nothing_dead(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here = merged(tmp_path)
    main(["settle", "--in", str(here.folder)])
    said = capsys.readouterr().out
    command = "git rm " + said.partition("git rm ")[2].split()[0]
    git(here.folder, *shlex.split(command)[1:])
    git(here.folder, "commit", "-q", "--no-edit")
    assert main(["settle", "--in", str(here.folder)]) == 0
    assert "nothing to settle" in capsys.readouterr().out
    assert not Project.open(here.folder).snapshot.problems
