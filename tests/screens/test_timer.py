"""The clock on a step, at the screen: started, paused, stopped, lost and found."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from logbook.records.kinds.happenings import StepDone, Work
from logbook.records.kinds.ids import Ref
from logbook.records.states.hours import minutes_typed
from logbook.screens.steps.timer import Timer
from logbook.store.typed.work_clock import read_clock
from tests.clocks import put_clock, set_back
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged


@pytest.fixture
def steps(shop: Path) -> Path:
    for name in ("fold the base", "file the crossbar"):
        logged(shop, "step", name)
    return shop


async def opened(at: Bench) -> None:
    await at.do("ctrl+t")
    assert isinstance(at.app.screen, Timer)


async def start(at: Bench, subject: str, minutes: int) -> None:
    """Start the clock on what these words find, and let it have run so long."""
    await opened(at)
    await at.say(subject)
    back(at, minutes)


def back(at: Bench, minutes: int) -> None:
    """Let the clock have been started, and seen last, so long ago."""
    set_back(at.app.desk.keeping.root, minutes)
    at.app.desk.clock.look()


def works(shop: Path) -> list[tuple[str, Ref | None]]:
    return [(str(w.time), w.step) for w in project(shop).snapshot.all(Work)]


async def test_a_clock_is_started_on_a_step_and_what_it_counted_is_logged(
    steps: Path,
) -> None:
    async with bench(steps, (100, 30)) as at:
        await opened(at)
        await at.say("fold")
        assert read_clock(steps) is not None
        back(at, 25)
        await opened(at)
        assert "25 min on fold the base" in at.seen
        await at.do("enter")
        assert at.line.has_focus
    [(time, step)] = works(steps)
    assert (time, step.name if step else "") == ("25 min", "fold the base")
    assert read_clock(steps) is None


async def test_a_clock_started_on_a_step_that_waits_says_why_it_waits(
    steps: Path,
) -> None:
    logged(steps, "hold", "fold the base", "the sheet is not here")
    async with bench(steps, (118, 30)) as at:
        await opened(at)
        assert "step 1, waits" in at.seen
        await at.say("fold")
        assert read_clock(steps) is not None
        assert "the clock runs, but fold the base waits:" in at.seen
        assert "the sheet is not here" in at.seen


async def test_what_was_forgotten_is_said_and_the_minutes_can_be_typed(
    steps: Path,
) -> None:
    async with bench(steps, (118, 30)) as at:
        await start(at, "fold", 90)
        at.app.desk.clock.idle = timedelta(minutes=30)
        clock = at.app.desk.clock
        assert clock.minutes(at.app.desk.now()) == (30, 60)
        await at.do("ctrl+t")
        # The key that opens the screen is a sign of work after a long rest.
        assert "30 min (1 h not counted) on fold the base" in at.seen
        assert "nothing was typed or logged for more than 30 min" in at.words
        await at.say("55 min")
    assert [time for time, _ in works(steps)] == ["55 min"]


async def test_a_paused_clock_stands_still_in_the_band(steps: Path) -> None:
    async with bench(steps) as at:
        await start(at, "", 12)
        await opened(at)
        await at.do("down", "enter")
        assert "clock paused 12 min" in at.app.desk.clock.words(at.app.desk.now())
        await opened(at)
        await at.do("down", "enter")
        assert (
            at.app.desk.clock.words(at.app.desk.now())
            == "clock 12 min on fold the base"
        )
        at.app._tick()
        await at.settle()
        assert "clock 12 min" in at.seen


async def test_a_closed_terminal_loses_no_minute(steps: Path) -> None:
    async with bench(steps) as at:
        await start(at, "something of my own", 40)
        await at.settle()
    async with bench(steps, (100, 30)) as at:
        await opened(at)
        assert "on something of my own" in at.seen
        await at.do("enter")
    [(time, step)] = works(steps)
    assert step is None
    assert time in {"30 min", "40 min"}


async def test_a_clock_whose_time_is_on_record_already_does_not_come_back(
    steps: Path,
) -> None:
    async with bench(steps) as at:
        await start(at, "", 10)
        clock = at.app.desk.clock.on
        await opened(at)
        await at.do("enter")
    assert len(works(steps)) == 1
    put_clock(steps, clock)  # as if killed between the entry and the file
    async with bench(steps) as at:
        assert at.app.desk.clock.on is None
        await at.settle()
    assert read_clock(steps) is None


async def test_starting_on_another_step_logs_the_first(steps: Path) -> None:
    async with bench(steps) as at:
        await start(at, "fold", 15)
        await opened(at)
        await at.say("file")
        clock = at.app.desk.clock.on
        assert clock is not None
        assert clock.subject == "file the crossbar"
    assert [time for time, _ in works(steps)] == ["15 min"]
    kept = read_clock(steps)
    assert kept is not None
    assert kept.subject == "file the crossbar"


async def test_a_clock_stopped_at_once_logs_nothing_and_says_so(steps: Path) -> None:
    async with bench(steps) as at:
        await opened(at)
        await at.do("enter")
        await opened(at)
        await at.do("enter")
        assert "nothing was logged" in at.seen
    assert works(steps) == []
    assert read_clock(steps) is None


async def test_a_step_that_is_done_stands_last_and_says_so(steps: Path) -> None:
    logged(steps, "step", "fold the base", "--done")
    async with bench(steps) as at:
        await opened(at)
        assert "step 1, done" in at.seen
        assert at.seen.index("file the crossbar") < at.seen.index("step 1, done")


async def test_a_step_whose_piece_was_scrapped_is_to_be_done_again(
    steps: Path,
) -> None:
    logged(steps, "step", "saw the cam", "--makes", "cam")
    logged(steps, "say", "--yes", "sawed cam-1")
    logged(steps, "step", "saw the cam", "--done")
    async with bench(steps, (100, 30)) as at:
        await opened(at)
        assert "step 3, done" in at.seen
        await at.press("escape")
        await at.say("scrap cam-1")
        await opened(at)
        assert "step 3, make again" in at.seen


async def test_dropping_logs_nothing(steps: Path) -> None:
    async with bench(steps) as at:
        await start(at, "", 15)
        await opened(at)
        await at.do("down", "down", "enter")
    assert works(steps) == []
    assert read_clock(steps) is None


@pytest.mark.parametrize(
    ("typed", "minutes"),
    [
        ("25", 25), ("1.5 h", 90), ("90 s", 2), ("0", None), ("-5", None),
        ("5 mm", None), ("fold", None), ("", None), ("9999999", None),
    ],
)  # fmt: skip
def test_minutes_are_read_as_typed(typed: str, minutes: int | None) -> None:
    assert minutes_typed(typed) == minutes


async def test_a_number_finds_its_step_and_a_dropped_step_is_not_offered(
    steps: Path,
) -> None:
    logged(steps, "step", "rivet the lid on")
    [path] = (steps / "as-built/steps").rglob("*rivet*")
    text = path.read_text("utf-8")
    assert "number = 3" in text
    path.write_text(text.replace("number = 3", "number = 0"), "utf-8")
    async with bench(steps, (80, 24)) as at:
        await opened(at)
        assert "rivet the lid on" not in at.seen
        await at.type("2")
        assert "fold the base" not in at.seen
        await at.do("enter")
        words = at.app.desk.clock.words(at.app.desk.now())
        assert words.startswith("clock 0 min on file the")
    clock = read_clock(steps)
    assert clock is not None
    assert clock.subject == "file the crossbar"


async def test_what_is_said_of_a_step_goes_on_at_the_key_the_strip_names(
    shop: Path,
) -> None:
    tools = [word for at in range(60) for word in ("--tool", f"file number {at}")]
    logged(shop, "step", "file the crossbar", *tools, "--accept", "flush on top")
    async with bench(shop, (80, 24)) as at:
        await opened(at)
        assert "more below" in at.seen
        assert "PgDn more" in at.seen
        assert "flush on top" not in at.words
        for _ in range(4):
            await at.press("pagedown")
        assert "flush on top" in at.words
        assert "more below" not in at.seen
        await at.press(*["pageup"] * 4)
        assert "more below" in at.seen


async def test_a_step_logged_as_done_in_a_line_ends_its_clock_and_undo_goes_on(
    steps: Path,
) -> None:
    async with bench(steps, (118, 30)) as at:
        await start(at, "fold", 25)
        await at.say("filed the crossbar")
        assert at.app.desk.clock.on is not None, "another step ends no clock"
        await at.say("folded the base")
        assert "the clock stopped: 25 min on fold the base" in at.seen
        assert read_clock(steps) is None
        [(time, step)] = works(steps)
        assert (time, step.name if step else "") == ("25 min", "fold the base")
        last = at.app.desk.last_entry
        assert isinstance(last, StepDone)
        await at.do("f8")
        assert "the clock on fold the base goes on" in at.seen
        assert works(steps) == []
        await at.until(lambda: read_clock(steps) is not None)
        assert at.app.desk.clock.minutes(at.app.desk.now()) == (25, 0)


async def test_the_time_typed_with_a_step_stands_for_what_the_clock_counted(
    steps: Path,
) -> None:
    async with bench(steps, (118, 30)) as at:
        await start(at, "crossbar", 25)
        await at.do("ctrl+n")
        await at.press("down")
        await at.say("40 min")
        assert "the clock stopped; the time typed stands: 40 min" in at.seen
        assert at.app.desk.clock.on is None
    assert works(steps) == []
    assert read_clock(steps) is None


async def test_a_bare_figure_is_the_number_of_a_step_while_a_clock_runs(
    steps: Path,
) -> None:
    async with bench(steps) as at:
        await start(at, "1", 25)
        await opened(at)
        await at.say("2")
        on = at.app.desk.clock.on
        assert on is not None
        assert on.subject == "file the crossbar"
    assert [time for time, _ in works(steps)] == ["25 min"]


async def test_taking_back_what_the_clock_counted_lets_it_go_on(steps: Path) -> None:
    async with bench(steps, (118, 30)) as at:
        await start(at, "fold", 25)
        await opened(at)
        await at.do("enter")
        assert [time for time, _ in works(steps)] == ["25 min"]
        await at.do("f8")
        assert "the clock on fold the base goes on" in at.seen
        assert works(steps) == []
        await at.until(lambda: read_clock(steps) is not None)
        assert at.app.desk.clock.minutes(at.app.desk.now()) == (25, 0)


async def test_what_the_shell_starts_and_stops_is_seen_in_the_window(
    steps: Path,
) -> None:
    async with bench(steps, (118, 30)) as at:
        logged(steps, "clock", "start", "fold")
        for _ in range(2):
            at.app._tick()
            await at.settle()
        assert "clock 0 min on fold the base" in at.seen
        back(at, 25)
        logged(steps, "clock", "stop")
        await at.until(lambda: at.app.desk.clock.look() is None)
        assert "on fold the base" not in at.seen.splitlines()[0]
    assert [time for time, _ in works(steps)] == ["25 min"]
    logged(steps, "undo")
    assert works(steps) == []
    assert read_clock(steps) is not None
