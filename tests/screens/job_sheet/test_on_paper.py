"""The sheet written for the printer, and where git leaves it alone."""

from __future__ import annotations

import subprocess
from pathlib import Path

from tests.screens.bench_keys import bench, project


def unknown_to_git(shop: Path) -> str:
    command = ["git", "-C", str(shop), "status", "--porcelain"]
    done = subprocess.run(command, check=True, capture_output=True, text=True)
    return done.stdout


def pages(shop: Path) -> list[str]:
    places = shop.glob("as-built/job-sheets/job-sheet-*.html")
    return [page.read_text("utf-8") for page in places]


async def test_the_sheet_is_written_for_the_printer_and_says_so(
    printed: Path,
) -> None:
    async with bench(printed, (100, 30)) as at:
        await at.do("ctrl+s")
        assert "Ctrl-S writes sheet " in at.words
        assert "saw the bar" in at.words
        await at.do("ctrl+s")
        assert "print it from a browser" in at.words
    [page] = pages(printed)
    assert "saw the bar" in page
    assert "Typed in on the bench with <b>Ctrl-S</b>" in page
    assert unknown_to_git(printed) == ""
    assert project(printed).snapshot.problems == ()
