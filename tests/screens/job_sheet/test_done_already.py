"""Steps on a sheet that are done already, and the clock that runs on one."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import (
    Note,
    StepDone,
    Work,
)
from logbook.store.typed.work_clock import read_clock, started
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged
from tests.screens.job_sheet.sheet_keys import go_to, number, opened


async def start_clock(at: Bench) -> None:
    snapshot = at.app.desk.snapshot
    [saw] = [one for one in snapshot.all(Step) if one.title == "saw the bar"]
    began = at.app.desk.now() - timedelta(minutes=9)
    at.app.desk.clock.start(started(saw.title, "", began, saw.id))
    await at.settle()


@pytest.mark.parametrize("minutes", ["25", ""])
async def test_the_clock_on_a_step_ends_with_the_sheet_that_logs_it(
    printed: Path, minutes: str
) -> None:
    async with bench(printed, (100, 30)) as at:
        await start_clock(at)
        await opened(at)
        done = number(printed, "done")
        await go_to(at, done)
        await at.say("x")
        if minutes:
            await at.say(minutes)
        await at.do("ctrl+s")
        assert "the clock on saw the bar is stopped" in at.words
        assert at.app.desk.clock.on is None
    assert read_clock(printed) is None
    snapshot = project(printed).snapshot
    worked = [str(one.time) for one in snapshot.all(Work)]
    [step] = snapshot.all(StepDone)
    assert (str(step.time), worked) == (
        ("25 min", []) if minutes else ("None", ["9 min"])
    )


@pytest.mark.parametrize(("key", "logged_as_done"), [("enter", 1), ("l", 2)])
async def test_a_step_done_meanwhile_is_asked_about_and_left_out_or_logged_again(
    printed: Path, key: str, logged_as_done: int
) -> None:
    logged(printed, "step", "close the lid", "--done", "--inside", "cable")
    async with bench(printed, (100, 30)) as at:
        await at.do("ctrl+s", "enter")
        await go_to(at, number(printed, "inside: cable"))
        for typed in ("x", "x", "", "a rivet sat crooked"):
            await at.say(typed)
        await at.do("ctrl+s")
        assert "close the lid is on record as done on build 1 already" in at.words
        assert not project(printed).snapshot.all(Note)
        await at.do(key)
        said = "done already, not logged again: close the lid" in at.words
        assert said is (key == "enter")
    snapshot = project(printed).snapshot
    assert len(snapshot.all(StepDone)) == logged_as_done
    assert [one.title for one in snapshot.all(Note)] == ["a rivet sat crooked"]


async def test_a_sheet_of_which_everything_is_on_record_is_not_saved(
    printed: Path,
) -> None:
    logged(printed, "step", "close the lid", "--done", "--inside", "cable")
    async with bench(printed, (100, 30)) as at:
        await at.do("ctrl+s", "enter")
        await go_to(at, number(printed, "inside: cable") + 1)
        await at.say("x")
        await at.do("ctrl+s")
        await at.do("enter")
        assert "done already, and nothing else is on the sheet" in at.words
    assert len(project(printed).snapshot.all(StepDone)) == 1
