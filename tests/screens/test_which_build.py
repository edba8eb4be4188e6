"""The key that switches builds says so, and what follows is of the build shown."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Deviation, Run
from logbook.records.kinds.workshop import Build
from logbook.screens.desk.news import Elsewhere
from logbook.screens.ruled.entry_line import EntryLine
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged


def newest(shop: Path) -> tuple[str, str]:
    """Give the title of the newest entry, and the build it is of."""
    entry = project(shop).snapshot.entries[-1]
    return entry.title, entry.build.name if entry.build else ""


def cloned(
    shop: Path, place: Path, who: tuple[str, str] = ("Rebuilder", "rebuilder@invalid")
) -> Path:
    """Give a clone, another person's if nobody is named."""
    subprocess.run(["git", "clone", "-q", str(shop), str(place)], check=True)
    for name, value in zip(("name", "email"), who, strict=True):
        set_to = ["git", "-C", str(place), "config", f"user.{name}", value]
        subprocess.run(set_to, check=True)
    return place


async def test_what_is_moved_or_given_a_photo_is_of_the_build_shown(
    shop: Path,
) -> None:
    logged(shop, "build", "build 2", "--when", "2024-03-08T10:00")
    async with bench(shop, (100, 30)) as at:
        await at.say("sanded the bed")
        entry = at.app.desk.last_entry
        assert entry is not None
        assert entry.title == "sanded the bed"
        await at.do("f4")
        assert "now build 1, no longer build 2; F4 goes on to the next" in at.words
        entry = at.app.desk.last_entry
        assert entry is not None
        assert entry.title != "sanded the bed"
        await at.do("f7")
        assert "move “sanded the bed”" not in at.words


async def test_moving_the_newest_entry_leaves_the_bench_in_its_build(
    shop: Path,
) -> None:
    logged(shop, "build", "build 2", "--when", "2024-03-08T10:00")
    async with bench(shop, (100, 30)) as at:
        await at.say("sanded the bed")
        await at.press("f7")
        await at.say("build 1")
        assert "moved to build 1" in at.words
        assert at.app.desk.glance.build is not None
        assert at.app.desk.glance.build.title == "build 2"
        await at.say("oiled the bed")
    assert newest(shop) == ("oiled the bed", "build 2")


async def test_a_second_window_opens_in_the_build_that_is_worked_on(shop: Path) -> None:
    logged(shop, "build", "build 2", "--when", "2024-03-08T10:00")
    async with bench(shop, (100, 30)) as at:
        await at.say("sanded the bed")
        await at.press("f7")
        await at.say("build 1")
        assert "moved to build 1" in at.words
    async with bench(shop, (100, 30)) as second:
        assert second.app.desk.glance.build is not None
        assert second.app.desk.glance.build.title == "build 2"
        await second.say("oiled the bed")
    assert newest(shop) == ("oiled the bed", "build 2")


async def test_a_build_begun_in_a_window_is_not_said_to_be_begun_elsewhere(
    shop: Path,
) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.do("f12")
        await at.do("1")
        await at.until(lambda: len(at.app.desk.glance.builds) == 2)
        assert at.app.desk.shown.name == "build 2"
        assert "elsewhere" not in at.words
        assert "build 2 is begun" in at.words


async def test_a_window_stays_in_its_build_when_another_is_begun_elsewhere(
    shop: Path,
) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.say("sanded the bed")
        logged(shop, "build", "build 2")
        await at.until(lambda: len(at.app.desk.glance.builds) == 2)
        await at.settle()
        assert "build 2 was begun elsewhere; F4 goes on with it" in at.words
        await at.say("oiled the bed")
    assert newest(shop) == ("oiled the bed", "build 1")


async def test_what_one_line_made_moves_together(shop: Path) -> None:
    logged(shop, "build", "build 2", "--when", "2024-03-08T10:00")
    async with bench(shop, (118, 30)) as at:
        await at.say("base opening 178.1 should be 178.6")
        while at.app.screen.query_one(EntryLine).asking:
            await at.do("1")
        await at.do("f7")
        assert "logged with it" in at.words
        await at.say("build 1")
        assert "logged with it too" in at.words
    snapshot = project(shop).snapshot
    found = [
        one.build.name if one.build else ""
        for one in snapshot.entries
        if isinstance(one, Run | Deviation) and "178.1" in one.title
    ]
    assert found == ["build 1", "build 1"]


async def test_a_window_opens_again_in_the_build_it_was_left_in(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    logged(shop, "build", "build 2", "--when", "2024-03-08T10:00")
    monkeypatch.setenv("TMUX_PANE", "%1")
    async with bench(shop, (100, 30)) as at:
        await at.do("f4")
        assert at.app.desk.shown.name == "build 1"
    monkeypatch.setenv("TMUX_PANE", "%2")
    async with bench(shop, (100, 30)) as other:
        assert other.app.desk.shown.name == "build 2", "it was never open here"
        await other.say("sanded the bed")
    monkeypatch.setenv("TMUX_PANE", "%1")
    async with bench(shop, (100, 30)) as again:
        assert again.app.desk.shown.name == "build 1"
        assert (
            "in build 1, as this window was left; what was logged last is of build 2; "
            "F4 changes the build"
        ) in again.words
    logged(shop, "build", "build 3")
    async with bench(shop, (100, 30)) as after:
        assert after.app.desk.shown.name == "build 3", "it was begun since"


@pytest.fixture
def anothers(shop: Path, tmp_path: Path) -> Path:
    """The logbook as somebody else has it, who has logged nothing yet."""
    return cloned(shop, tmp_path / "mine")


@pytest.fixture
def own_clone(shop: Path, tmp_path: Path) -> Path:
    """A second clone of the one who logged it."""
    return cloned(shop, tmp_path / "second", ("Test Builder", "test@invalid"))


LEADS = "F12 begins your own build, Ctrl-Y shows first"


async def test_a_clone_of_anothers_logbook_leads_to_a_build_of_ones_own(
    shop: Path, anothers: Path
) -> None:
    async with bench(anothers, (80, 24)) as at:
        assert LEADS in at.words
        await at.do("f12", "1")
        assert LEADS not in at.words
    assert [one.title for one in project(anothers).snapshot.all(Build)][-1] == "build 2"
    async with bench(anothers, (80, 24)) as again:
        assert LEADS not in again.words
        assert again.app.desk.shown.name == "build 2"
    async with bench(shop, (80, 24)) as authors:
        assert LEADS not in authors.words


async def test_nothing_goes_under_anothers_build_before_that_was_said(
    anothers: Path,
) -> None:
    before = len(project(anothers).snapshot.entries)
    async with bench(anothers, (80, 24)) as at:
        await at.say("base opening 178.9")
        assert "build 1 was logged in another clone: “start build”" in at.words
        assert at.line.value == "base opening 178.9"
        assert len(project(anothers).snapshot.entries) == before
        await at.do("enter")
        assert LEADS not in at.words
        await at.say("sanded the bed")
    assert len(project(anothers).snapshot.entries) == before + 2


async def test_a_reading_under_anothers_build_is_given_back_in_its_run_only(
    anothers: Path,
) -> None:
    async with bench(anothers, (80, 24)) as at:
        await at.do("f3")
        await at.do("enter")
        await at.say("179.9")
        assert "“start build” on the bench begins your own" in at.words
        assert at.line.value == "179.9"
        await at.do("escape")
        await at.do("escape")
        assert at.line.value == ""
        await at.do("f12", "1")
        await at.do("f3")
        assert "base" in at.words
    assert [len(run.readings) for run in project(anothers).snapshot.all(Run)] == [1]


async def test_one_who_works_on_his_own_clone_is_asked_nothing(
    own_clone: Path,
) -> None:
    async with bench(own_clone, (80, 24)) as at:
        assert "in build 1, which was logged in another clone" in at.words
        await at.say("sanded the bed")
        assert at.line.value == ""
    assert project(own_clone).snapshot.entries[-1].title == "sanded the bed"


async def test_before_a_rebuild_a_build_of_ones_own_is_begun_by_the_same_key(
    anothers: Path,
) -> None:
    async with bench(anothers, (100, 30)) as at:
        await at.do("ctrl+y")
        first = at.words.partition("what do you hold?")[2]
        assert first.index("the design files") < first.index("build 1")
        await at.do("enter", "f12")
        assert "begin build 2?" in at.words
        await at.do("1")
        assert "build 2 is begun" in at.words
        assert at.app.desk.shown.name == "build 2"


async def test_one_key_goes_on_with_the_other_build(shop: Path) -> None:
    logged(shop, "build", "build 2")
    async with bench(shop) as at:
        assert "build 2" in at.seen
        await at.do("f4")
        await at.say("base opening 178.7")
    last = project(shop).snapshot.all(Run)[-1]
    assert last.build is not None
    assert last.build.name == "build 1"


async def test_the_key_says_whose_shop_makes_the_build_where_there_are_two(
    shop: Path,
) -> None:
    logged(shop, "build", "shed-1", "--builder", "Ada")
    async with bench(shop, (100, 30)) as at:
        await at.do("f4")
        assert "now build 1 (Test Builder), no longer shed-1; F4 goes on" in at.words
        await at.do("f4")
        assert "now shed-1 (Ada), no longer build 1; F4 goes on" in at.words


async def test_where_another_window_stands_is_said_as_it_is_by_now(
    shop: Path,
) -> None:
    async with bench(shop, (120, 40)) as at:
        for build in ("build 7", "build 8"):
            at.app.desk.post(Elsewhere((build,)))
            await at.settle()
        assert "another window stands in build 8" in at.words
        assert "build 7" not in at.words
