"""What somebody meets who has no logbook, no part or nothing to answer yet."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from logbook.cli import main
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Part
from logbook.records.kinds.workshop import Piece
from logbook.screens.ruled.rows import Row
from tests.screens.bench_keys import bench, measuring, project
from tests.screens.conftest import logged


def repository(folder: Path) -> Path:
    """Make an empty repository."""
    folder.mkdir()
    subprocess.run(["git", "init", "-q"], cwd=folder, check=True)
    return folder


async def test_who_begins_is_told_what_to_do_first(tmp_path: Path) -> None:
    folder = repository(tmp_path / "new")
    async with bench(folder, (60, 20)) as at:
        assert "leave (Ctrl-Q); in your design's folder type" in at.seen
        assert "logbook start" in at.seen
        assert "looking" not in at.seen
    logged(folder, "start", "--name", "Stand", "--unit", "mm", "--yes")
    async with bench(folder, (60, 20)) as at:
        assert "type below what happened, in plain words" in at.seen
        await at.press("up", "enter", "down")  # there is nothing to choose yet
        await at.say("base opening 178.6")
        assert "type below what happened" not in at.seen


async def test_without_a_logbook_the_line_is_kept_for_the_one_started_here(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = repository(tmp_path / "new")
    async with bench(folder, (100, 30)) as at:
        await at.say("base opening 178.6")
        assert "reading the records" not in at.seen
        assert at.seen.count("no logbook here; `logbook start` makes one") == 2
        assert at.line.value == "base opening 178.6"
    capsys.readouterr()
    assert main(["drafts", "--in", str(folder)]) == 0
    assert "base opening 178.6" in capsys.readouterr().out
    logged(folder, "start", "--name", "Stand", "--unit", "mm", "--yes")
    capsys.readouterr()
    assert main(["drafts", "--in", str(folder)]) == 0
    assert "base opening 178.6" in capsys.readouterr().out


async def test_a_new_piece_of_a_known_part_has_its_own_numbers(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await measuring(at, "base-2")
        assert "measuring base-2" in at.seen
        assert "before: " not in at.seen
        await at.say("178.9")
    snapshot = project(shop).snapshot
    assert [one.title for one in snapshot.all(Part)] == ["base"]
    assert {one.title for one in snapshot.all(Piece)} == {"base-1", "base-2"}


async def test_what_was_passed_over_is_chosen_and_answered_later(shop: Path) -> None:
    logged(shop, "say", "--yes", "crossbar 179.7")
    async with bench(shop, (100, 30)) as at:
        await at.do("ctrl+o")
        assert "does the crossbar go into" in at.seen
        await at.say("crossbar go into")
        await at.say("0.1 to 0.5, made last")
    assert len(project(shop).snapshot.all(Fit)) == 1


async def test_nothing_offered_and_no_part_are_said(tmp_path: Path) -> None:
    folder = repository(tmp_path / "empty")
    logged(folder, "start", "--name", "Stand", "--unit", "mm", "--yes")
    async with bench(folder, (100, 30)) as at:
        await at.do("ctrl+o")
        assert "nothing is offered" in at.seen
        await at.do("ctrl+p")
        await at.press("enter")
        assert "no part yet; the line" in at.seen


@pytest.mark.parametrize("key", ["ctrl+l", "ctrl+e", "ctrl+s", "ctrl+g", "tab"])
async def test_without_a_logbook_no_key_says_that_one_is_being_read(
    tmp_path: Path, key: str
) -> None:
    async with bench(repository(tmp_path / "empty"), (100, 30)) as at:
        await at.do(key)
        assert "still being read" not in at.words
        assert at.words.count("no logbook here") == 2


async def test_what_has_no_room_in_a_row_ends_in_dots(shop: Path) -> None:
    async with bench(shop) as at:
        row = at.app.screen.query_one("#undecided", Row)
        row.say("deviation of a part " * 9)
        await at.rest()
        [seen] = [one for one in at.seen.splitlines() if "deviation of a" in one]
        assert seen.rstrip().endswith("…")
