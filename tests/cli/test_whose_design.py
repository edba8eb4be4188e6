"""A release of somebody else's design says whose it is, and is asked about once."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.cli import main
from logbook.errors import Refused
from logbook.project import Project
from logbook.records.kinds.made_public import Release
from tests.cli.test_clones import Bench, clones, shop

SAID = "this is a design that bench0 released (1.0)"


@pytest.fixture
def theirs(tmp_path: Path) -> Bench:
    """A clone of a design that another person released as 1.0."""
    here, there = clones(tmp_path, 2)
    shop(here, "09:00", "release", "1.0", "--anyway")
    there.pull(here)
    return there


def release(bench: Bench, label: str, *more: str) -> int:
    return main(["release", label, "--anyway", "--in", str(bench.folder), *more])


def labels(bench: Bench) -> list[str]:
    found = Project.open(bench.folder).snapshot.all(Release)
    return sorted(one.label for one in found)


def test_a_script_is_refused_until_it_says_that_it_is_meant(
    theirs: Bench, capsys: pytest.CaptureFixture[str]
) -> None:
    assert release(theirs, "1.1") == Refused.exit_code
    assert SAID in capsys.readouterr().err
    assert labels(theirs) == ["1.0"]
    assert release(theirs, "1.1", "--of-another") == 0
    # From then on there is one of his own: it was said.
    assert release(theirs, "1.2") == 0
    assert labels(theirs) == ["1.0", "1.1", "1.2"]


@pytest.mark.parametrize(("answer", "made"), [("", ["1.0"]), ("y", ["1.0", "1.1"])])
def test_at_a_terminal_it_is_asked(
    theirs: Bench,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    answer: str,
    made: list[str],
) -> None:
    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    monkeypatch.setattr("builtins.input", lambda _: answer)
    release(theirs, "1.1")
    assert SAID in " ".join(capsys.readouterr().out.split())
    assert labels(theirs) == made


def test_a_check_tells_it_and_changes_nothing(
    theirs: Bench, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["release", "1.1", "--check", "--in", str(theirs.folder)]) == 0
    assert SAID in capsys.readouterr().out


def test_of_ones_own_design_nothing_is_said(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    [here] = clones(tmp_path, 1)
    shop(here, "09:00", "release", "1.0", "--anyway")
    shop(here, "10:00", "release", "1.1", "--anyway")
    assert "this is a design that" not in capsys.readouterr().out
