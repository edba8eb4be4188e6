"""One clock for all windows of a project: what one does to it, the others see."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from logbook.records.kinds.happenings import StepDone, Work
from logbook.screens.desk.step_clock import StepClock
from logbook.screens.steps.timer import Timer
from logbook.store.disk.own_places import state_folder
from logbook.store.typed.work_clock import read_clock, started
from tests.clocks import put_clock, set_back
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged

Windows = tuple[Bench, Bench]


@pytest.fixture
def steps(shop: Path) -> Path:
    for name in ("fold the base", "file the crossbar"):
        logged(shop, "step", name)
    logged(shop, "build", "build 2")
    return shop


@asynccontextmanager
async def two_windows(folder: Path) -> AsyncIterator[Windows]:
    """Open two windows, the second in the first build."""
    async with bench(folder, (118, 30)) as one, bench(folder, (118, 30)) as two:
        await two.do("f4")
        assert one.app.desk.shown.name == "build 2"
        assert two.app.desk.shown.name != "build 2"
        yield one, two


async def look(*windows: Bench) -> None:
    """Let windows look around, as they do every second."""
    for at in 2 * windows:
        at.app._tick()
        await at.settle()


async def start(at: Bench, subject: str) -> None:
    await at.do("ctrl+t")
    assert isinstance(at.app.screen, Timer)
    await at.say(subject)


@asynccontextmanager
async def counting(folder: Path, minutes: int = 8) -> AsyncIterator[Windows]:
    """Open two windows; in the first the clock has run on a step for so long."""
    async with two_windows(folder) as (one, two):
        await start(one, "fold")
        set_back(folder, minutes)
        await look(one, two)
        yield one, two


def works(folder: Path) -> list[tuple[str, str]]:
    found = project(folder).snapshot.all(Work)
    return [(str(w.time), w.build.name if w.build else "") for w in found]


async def test_a_clock_is_seen_in_every_window_with_the_build_it_counts_for(
    steps: Path,
) -> None:
    async with counting(steps, 5) as (one, two):
        assert "clock 5 min on fold the base" in one.seen
        assert "clock in build 2 5 min" in two.seen


async def test_what_one_window_stopped_is_stopped_in_the_other_and_logged_once(
    steps: Path,
) -> None:
    async with counting(steps) as (one, two):
        await one.do("ctrl+t", "enter")
        # Before the other window has looked: its keys are no sign of that clock.
        two.app.desk.clock._signed = 0.0
        await two.say("sanded the bed")
        assert read_clock(steps) is None
        assert two.app.desk.clock.on is None
        await look(two)
        assert "clock" not in two.seen.splitlines()[0]
    assert works(steps) == [("8 min", "build 2")]


async def test_a_clock_both_windows_stop_at_once_is_logged_once(steps: Path) -> None:
    async with counting(steps) as (one, two):
        await two.do("ctrl+t")
        await one.do("ctrl+t", "enter")
        await two.do("enter")
        assert "stopped" in two.words
        assert "in another window" in two.words
    assert works(steps) == [("8 min", "build 2")]


async def test_stopped_in_the_other_window_it_is_logged_for_its_own_build(
    steps: Path,
) -> None:
    async with counting(steps) as (one, two):
        await two.do("ctrl+t", "enter")
        assert "8 min on fold the base, of build 2" in two.words
        await look(one)
        assert one.app.desk.clock.on is None
    assert works(steps) == [("8 min", "build 2")]


async def test_a_second_clock_is_asked_about_and_the_first_is_never_overwritten(
    steps: Path,
) -> None:
    async with counting(steps) as (one, two):
        await start(two, "file")
        assert "the clock runs in build 2 already" in two.words
        await two.do("enter")
        held = read_clock(steps)
        assert held is not None
        assert held.subject == "fold the base"
        await start(two, "file")
        await two.do("down", "enter")
        held = read_clock(steps)
        assert held is not None
        assert held.subject == "file the crossbar"
        assert held.build == two.app.desk.shown.id
        await look(one)
        assert "on file the cros" in one.seen
    assert works(steps) == [("8 min", "build 2")]


def test_a_clock_started_unseen_in_another_window_is_not_overwritten(
    steps: Path,
) -> None:
    told: list[str] = []
    snapshot = project(steps).snapshot

    def at_once(work: Callable[[], object]) -> None:
        work()

    one, two = (StepClock(at_once, told.append, 30) for _ in "12")
    for window in (one, two):
        window.load(steps, snapshot)
    now = datetime.now(UTC)
    one.start(started("fold the base", "", now, window=one.window))
    two.start(started("file the crossbar", "", now + timedelta(1), window=two.window))
    held = read_clock(steps)
    assert held is not None
    assert held.subject == "fold the base"
    [said] = told
    assert "not started: the clock was started on “fold the base”" in said
    assert two.on == held
    two.change(held, lambda _: None)
    one.sign(now + timedelta(minutes=1))
    one.look()
    assert read_clock(steps) is None
    assert one.on is None


async def test_a_step_done_elsewhere_ends_the_clock_as_it_is_on_disk(
    steps: Path,
) -> None:
    async with two_windows(steps) as (one, two):
        await start(two, "fold")
        set_back(steps, 8)
        await look(one, two)
        await one.do("ctrl+t", "enter")
        await two.say("folded the base")
        assert "the clock stopped" not in two.words
    assert len(project(steps).snapshot.all(StepDone)) == 1
    assert [time for time, _ in works(steps)] == ["8 min"]


async def test_a_window_that_died_while_it_logged_leaves_the_clock_to_others(
    steps: Path,
) -> None:
    async with two_windows(steps) as (one, two):
        await start(one, "fold")
        set_back(steps, 8)
        held = read_clock(steps)
        assert held is not None
        put_clock(steps, replace(held, claimed="999999999-gone0000"))
        await look(two)
        await two.do("ctrl+t", "enter")
    assert works(steps) == [("8 min", "build 2")]


async def test_a_clock_past_its_idle_limit_is_said_to_be_paused(steps: Path) -> None:
    async with bench(steps, (118, 30)) as at:
        await start(at, "fold")
        set_back(steps, 90)
        await look(at)
        assert "clock on fold the base paused, 30 min counted" in at.seen
        await at.type("s")
        await look(at)
        assert "clock 30 min on fold the base" in at.seen


async def test_a_clock_the_disk_refuses_goes_on_and_is_kept_once_it_can_be(
    steps: Path,
) -> None:
    async with bench(steps, (118, 30)) as at:
        root = at.app.desk.keeping.root
        put_clock(root, None)
        place = state_folder(root) / "clock.json"
        place.mkdir()
        await start(at, "fold")
        assert "the clock is not kept on disk" in at.words
        await look(at)
        on = at.app.desk.clock.on
        assert on is not None
        place.rmdir()
        await look(at)
        held = read_clock(root)
        assert held is not None
        assert held.is_same(on)
