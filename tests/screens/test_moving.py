"""Moving an entry to another build: what goes with it, what stays, is said."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Entry, Run, StepDone
from logbook.records.kinds.workshop import Build, Piece
from logbook.screens.bench.builds import numbers_of
from logbook.screens.desk.to_other_build import move_job
from logbook.screens.record.record import RecordSheet
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged


@pytest.fixture
def two(shop: Path) -> Path:
    """A second build; the base of the first is on record with two entries."""
    logged(shop, "build", "build 2", "--when", "2024-03-08T10:00")
    return shop


def newest(shop: Path) -> Entry:
    return project(shop).snapshot.entries[-1]


def build_of(shop: Path, title: str) -> str:
    [piece] = [p for p in project(shop).snapshot.all(Piece) if p.title == title]
    return piece.build.name if piece.build else ""


async def test_the_list_starts_at_another_build_than_the_entrys_own(two: Path) -> None:
    async with bench(two, (100, 30)) as at:
        await at.say("sanded the bed")
        await at.do("f7")
        await at.do("enter")
        assert "moved to build 1: sanded the bed" in at.words
    moved = newest(two).build
    assert moved is not None
    assert moved.name == "build 1"


async def test_a_piece_on_record_by_this_entry_alone_goes_with_it(two: Path) -> None:
    async with bench(two, (100, 30)) as at:
        await at.say("mask width 36.05")
        assert build_of(two, "mask-1") == "build 2"
        await at.do("f7")
        assert "mask-1 with it" in at.words
        await at.do("enter")
        assert "moved to build 1: mask width 36.05; mask-1 with it" in at.words
    assert build_of(two, "mask-1") == "build 1"
    async with bench(two) as at:
        await at.do("f8", "f8")
    assert build_of(two, "mask-1") == "build 2"


async def test_a_piece_with_more_on_record_stays_and_that_is_said(two: Path) -> None:
    async with bench(two, (100, 30)) as at:
        await at.say("mask width 36.05")
        await at.say("mask height 24.05")
        await at.do("f7")
        assert "mask-1 stays a piece of build 2" in at.words
        await at.do("enter")
        said = "moved to build 1: mask height 24.05; mask-1 stays a piece of build 2"
        assert said in at.words
    assert build_of(two, "mask-1") == "build 2"


async def amend_build(at: Bench, entry: Entry, to: str) -> None:
    at.app.push_screen(RecordSheet(at.app.desk, entry.id))
    await at.settle()
    for _ in range(30):
        if "build" in at.line.placeholder or "build ›" in at.seen:
            break
        await at.press("down", "enter")
        if "build ›" in at.seen:
            break
        await at.press("escape")
    at.line.put("")
    await at.say(to)


async def test_amending_the_build_says_that_the_piece_stays(two: Path) -> None:
    async with bench(two, (100, 30)) as at:
        await at.say("mask width 36.05")
        await at.say("mask height 24.05")
        run = project(two).snapshot.all(Run)[-1]
        await amend_build(at, run, "build 1")
        assert "mask-1 stays a piece of build 2" in at.words


async def test_amending_the_build_takes_along_what_was_logged_with_it(
    two: Path,
) -> None:
    async with bench(two, (100, 30)) as at:
        await at.say("mask width 36.05 should be 36")
        await at.do("enter")
        run = project(two).snapshot.all(Run)[-1]
        await amend_build(at, run, "build 1")
        said = "moved to build 1: mask width 36.05 should be 36"
        assert f"{said}; the deviation logged with it too; mask-1 with it" in at.words
        assert run.id not in {one.id for one in at.app.desk.entries}
    entries = project(two).snapshot.entries[-2:]
    assert {one.build.name for one in entries if one.build} == {"build 1"}
    assert build_of(two, "mask-1") == "build 1"


async def test_the_figure_beside_a_build_is_the_number_it_is_called_by(
    two: Path,
) -> None:
    logged(two, "build", "build 3", "--when", "2024-03-09T10:00")
    async with bench(two, (100, 30)) as at:
        await at.say("sanded the bed")
        await at.do("f7")
        await at.type("2")
        assert "build 1" not in at.words.partition("moves")[0].partition("move “")[2]
        await at.do("enter")
    moved = newest(two).build
    assert moved is not None
    assert moved.name == "build 2"


@pytest.mark.parametrize(
    ("titles", "numbers"),
    [
        (["build 1", "build 2"], ["1", "2"]),
        (["stand 07", "stand 12"], ["7", "12"]),
        (["for testing", "build 2"], ["1", "2"]),
        (["first of 2", "second of 2"], ["1", "2"]),
        ([""], ["1"]),
    ],
)
def test_builds_without_a_number_of_their_own_are_counted(
    titles: list[str], numbers: list[str]
) -> None:
    assert numbers_of(titles) == numbers


async def test_an_entry_of_another_window_is_said_to_be_one(two: Path) -> None:
    logged(two, "say", "--yes", "sanded the lamp")
    async with bench(two, (100, 30)) as at:
        await at.do("f7")
        assert "it was not logged in this window" in at.words
        await at.press("escape")
        await at.say("sanded the bed")
        await at.do("f7")
        assert "it was not logged in this window" not in at.words


@pytest.fixture
def folded(two: Path) -> Path:
    """The base was folded in build 1; it was folded in build 2, and told of build 1."""
    logged(two, "step", "fold the base", "--makes", "base")
    logged(two, "step", "fold the base", "--done", "--build", "build 1")
    logged(two, "say", "--yes", "folded the base by hand", "--build", "build 1")
    assert tie(two) == ""
    return two


def tie(shop: Path) -> str:
    entry = newest(shop)
    assert isinstance(entry, StepDone)
    return entry.step.name if entry.step else ""


async def test_work_amended_to_its_build_is_the_step_that_is_open_there(
    folded: Path,
) -> None:
    async with bench(folded, (120, 40)) as at:
        await amend_build(at, newest(folded), "build 2")
        assert "step: fold the base" in at.words
    assert tie(folded) == "fold the base"


async def test_work_moved_to_its_build_is_the_step_that_is_open_there(
    folded: Path,
) -> None:
    snapshot = project(folded).snapshot
    [to] = [one for one in snapshot.all(Build) if one.title == "build 2"]
    job = move_job(snapshot, newest(folded), to.id, [newest(folded)])
    assert job.told == "moved to build 2: folded the base by hand; step: fold the base"
    [moved] = job.make(project(folded)).records
    assert isinstance(moved, StepDone)
    assert moved.step is not None


async def test_the_last_entry_moves_to_another_build_once_that_is_said(
    shop: Path,
) -> None:
    logged(shop, "build", "build 2")
    async with bench(shop) as at:
        await at.say("base opening 178.7")
        last = project(shop).snapshot.all(Run)[-1]
        assert last.build is not None
        assert last.build.name == "build 2"
        await at.do("f7", "1")
        assert "“base opening 178.7” of" in at.words
        assert "now of build 2" in at.words
        assert project(shop).snapshot[last.id] == last
        await at.do("enter")
    moved = project(shop).snapshot[last.id]
    assert isinstance(moved, Run)
    assert moved.build is not None
    assert moved.build.name == "build 1"
