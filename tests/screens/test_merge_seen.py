"""A merge that is not finished is said, and what to do about it."""

from __future__ import annotations

import subprocess
from pathlib import Path

from logbook.records.kinds.design import Part
from logbook.screens.record.record import RecordSheet
from tests.screens.bench_keys import bench, project

OURS, THEIRS = "sawn by hand", "sawn on the band saw"


def git(folder: Path, *words: str, fails: bool = False) -> None:
    done = subprocess.run(["git", *words], cwd=folder, check=False, capture_output=True)
    assert fails == bool(done.returncode), done.stderr


def in_conflict(shop: Path) -> None:
    """Change one record on two branches and begin to merge them."""
    [path] = [p for p in (shop / "as-built").glob("parts/*/*.md") if "base" in p.name]
    before = path.read_text("utf-8")
    git(shop, "switch", "-q", "-c", "other")
    path.write_text(before + f"\n{THEIRS}\n", "utf-8")
    git(shop, "commit", "-qam", "theirs")
    git(shop, "switch", "-q", "main")
    path.write_text(before + f"\n{OURS}\n", "utf-8")
    git(shop, "commit", "-qam", "ours")
    git(shop, "merge", "-q", "other", fails=True)


async def test_the_header_says_that_a_merge_is_unfinished_until_it_is(
    shop: Path,
) -> None:
    async with bench(shop, (120, 30)) as at:
        assert "all in git" in at.seen
        in_conflict(shop)
        await at.until(lambda: "merge unfinished" in at.seen)
        assert "all in git" not in at.seen
        await at.until(lambda: "logbook settle" in at.seen)
        git(shop, "checkout", "--ours", ".")
        git(shop, "commit", "-qam", "merged")
        await at.until(lambda: "all in git" in at.seen)
        assert "merge unfinished" not in at.seen
        assert "logbook settle" not in at.seen


async def test_a_record_in_conflict_is_not_said_to_be_gone(shop: Path) -> None:
    [base] = [one for one in project(shop).snapshot.all(Part) if one.title == "base"]
    async with bench(shop, (80, 24)) as at:
        at.app.push_screen(RecordSheet(at.app.desk, base.id))
        await at.settle()
        in_conflict(shop)
        await at.until(lambda: "both sides of a merge are in its file" in at.words)
        assert "gone" not in at.words
        assert "logbook settle" in at.words
        await at.press("escape")
        assert "a merge conflict; accepted: logbook settle" in at.words


def test_a_check_during_a_conflict_names_the_verb_that_settles_it(shop: Path) -> None:
    in_conflict(shop)
    problems = project(shop).snapshot.problems
    [conflict] = [one for one in problems if one.found == "a merge conflict"]
    assert "logbook settle" in str(conflict)
