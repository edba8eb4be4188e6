"""In a clone of somebody else's logbook the first entry says whose build it is of."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from logbook.cli import main
from tests.cli.shop import Shop

LINE = ("say", "base opening 178.9", "--yes")
SAID = "careful: this goes under build 1, which was logged in another clone"


def clone(shop: Shop, place: Path, *, own: bool) -> Path:
    """Give a clone, of the one who logged it or of another person."""
    shop.asked("say", "base opening 178.6", "--yes")
    subprocess.run(["git", "clone", "-q", str(shop.folder), str(place)], check=True)
    mail = shop.git("log", "-1", "--format=%ae").strip() if own else "other@invalid"
    for name, value in (("name", "Builder"), ("email", mail)):
        set_to = ["git", "-C", str(place), "config", f"user.{name}", value]
        subprocess.run(set_to, check=True)
    return place


def said(folder: Path, capsys: pytest.CaptureFixture[str], *words: str) -> str:
    capsys.readouterr()
    verb, *rest = words
    assert main([verb, "--in", str(folder), *rest]) == 0
    return " ".join(capsys.readouterr().err.split())


def test_it_is_said_once_with_the_way_to_ones_own(
    shop: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    theirs = clone(shop, tmp_path / "theirs", own=False)
    first = said(theirs, capsys, *LINE)
    assert SAID in first
    assert "logbook undo, then logbook build 'build 2'" in first
    assert SAID not in said(theirs, capsys, *LINE)


@pytest.mark.parametrize("words", [("build", "build 2"), (*LINE, "--build", "build 1")])
def test_a_build_that_is_begun_or_named_is_meant(
    words: tuple[str, ...],
    shop: Shop,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    theirs = clone(shop, tmp_path / "theirs", own=False)
    assert "careful" not in said(theirs, capsys, *words)


def test_ones_own_second_clone_says_nothing(
    shop: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    again = clone(shop, tmp_path / "again", own=True)
    assert "careful" not in said(again, capsys, *LINE)
