from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from logbook.cli import main

EARLIER = "2024-03-07T10:00"
LINE = "base opening 178.6 should be 180"


@pytest.fixture(autouse=True)
def own_state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep drafts and settings of a test to itself."""
    place = tmp_path / "state"
    monkeypatch.setenv("LOGBOOK_STATE", str(place))
    return place


@pytest.fixture(scope="session")
def shop_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shop as each test finds it: built once for each worker, only to be copied."""
    place = tmp_path_factory.mktemp("shop")
    folder = place / "stand"
    folder.mkdir()
    for words in (
        ("init", "-q", "-b", "main"),
        ("config", "user.name", "Test Builder"),
        ("config", "user.email", "test@invalid"),
    ):
        subprocess.run(["git", *words], cwd=folder, check=True)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("LOGBOOK_STATE", str(place / "state"))
        logged(folder, "start", "--name", "Stand", "--unit", "mm", "--yes")
        logged(folder, "build", "build 1", "--when", EARLIER)
        logged(folder, "say", "--yes", "--when", EARLIER, LINE)
    return folder


@pytest.fixture
def shop(shop_once: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    """A repository with a small logbook: a base, measured once, off its drawing."""
    folder = tmp_path / "stand"
    shutil.copytree(shop_once, folder, symlinks=True)
    capsys.readouterr()
    return folder


def logged(folder: Path, verb: str, *words: str) -> None:
    """Run one verb, which must not be refused."""
    assert main([verb, "--in", str(folder), *words]) == 0


@pytest.fixture
def drawn(shop: Path) -> Path:
    """The bar with limits on its length, at two places."""
    logged(shop, "part", "bar")
    logged(shop, "measure", "bar", "length", "40.02", "--nominal", "40.0 mm")
    draw_limits(shop)
    return shop


@pytest.fixture
def calipered(drawn: Path) -> Path:
    """The bar with limits, read by a caliper last."""
    logged(drawn, "instrument", "300 mm caliper", "--uncertainty", "0.04 mm")
    logged(drawn, "measure", "bar", "length", "right=40", "--with", "300 mm caliper")
    return drawn


def draw_limits(folder: Path) -> None:
    """Draw limits and places on the length, as an editor of the file would."""
    [path] = [
        p for p in (folder / "as-built/dimensions").rglob("*.md") if "length" in p.name
    ]
    text = path.read_text("utf-8")
    more = (
        'lower_limit = "39.9 mm"\nupper_limit = "40.1 mm"\nplaces = ["left", "right"]\n'
    )
    path.write_text(text.replace("```\n", f"{more}```\n", 1), "utf-8")
