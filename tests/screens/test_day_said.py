"""A day said once at the bench is the day of what is typed next, until it ends."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Entry, Run, StepDone
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged

SOME_DAYS_AGO = (datetime.now(UTC).astimezone() - timedelta(9)).date()
DAY = f"{SOME_DAYS_AGO:%d.%m.}"


def newest(shop: Path, kind: type[Entry]) -> Entry:
    return project(shop).snapshot.all(kind)[-1]


async def test_a_day_alone_is_the_day_of_the_lines_that_follow(shop: Path) -> None:
    async with bench(shop) as at:
        await at.type(DAY)
        assert "Enter: what is typed next is of it" in at.words
        await at.press("enter")
        assert f"of {SOME_DAYS_AGO:%d %b}" in at.words
        assert at.line.value == ""
        await at.say("filed the base flush")
        await at.say("16:30 sanded the base")
    steps = project(shop).snapshot.all(StepDone)
    [filed, sanded] = [one.when.astimezone() for one in steps[-2:]]
    assert filed.date() == sanded.date() == SOME_DAYS_AGO
    assert filed.hour == 12
    assert f"{sanded:%H:%M}" == "16:30"
    titles = [one.title for one in steps[-2:]]
    assert titles == ["filed the base flush", "sanded the base"]


async def test_lines_of_one_day_keep_the_order_they_were_typed_in(shop: Path) -> None:
    async with bench(shop) as at:
        await at.say(DAY)
        for part in ("base", "crossbar", "lid"):
            await at.say(f"sanded the {part}")
    done = [one for one in project(shop).snapshot.entries if isinstance(one, StepDone)]
    titles = [one.title for one in done][-3:]
    assert titles == ["sanded the base", "sanded the crossbar", "sanded the lid"]
    assert done[-3].when < done[-2].when < done[-1].when


@pytest.mark.parametrize("ends", ["today", "now", ""])
async def test_it_ends_by_esc_or_today_or_now(shop: Path, ends: str) -> None:
    async with bench(shop) as at:
        await at.say(DAY)
        if ends:
            await at.say(ends)
        else:
            await at.press("escape")
        assert "of now again" in at.words
        await at.say("filed the base flush")
    done = newest(shop, StepDone)
    assert datetime.now(UTC) - done.when < timedelta(hours=1)


async def test_what_is_measured_is_of_the_day_too(shop: Path) -> None:
    async with bench(shop) as at:
        await at.say(DAY)
        await at.press("f3")
        await at.say("base")
        await at.say("178.6")
        await at.rest()
    run = project(shop).snapshot.all(Run)[-1]
    assert run.readings[-1].at.astimezone().date() == SOME_DAYS_AGO


async def test_a_day_typed_in_the_order_of_work_is_when_the_step_was_done(
    shop: Path,
) -> None:
    logged(shop, "step", "drill the corner holes")
    async with bench(shop) as at:
        await at.press("ctrl+n")
        await at.type(f"{SOME_DAYS_AGO:%d %b} 25 min".lower())
        await at.do("enter")
    done = newest(shop, StepDone)
    assert isinstance(done, StepDone)
    assert done.when.astimezone().date() == SOME_DAYS_AGO
    assert str(done.time) == "25 min"


async def test_a_step_put_in_midway_names_the_work_that_may_have_been_it(
    shop: Path,
) -> None:
    logged(shop, "say", "--yes", f"{DAY} drilled the base")
    async with bench(shop) as at:
        await at.press("ctrl+n")
        await at.type("step drill the base")
        await at.do("enter")
        day = f"{SOME_DAYS_AGO:%d %b}"
        assert f"“drilled the base” was logged on {day}; if it was this" in at.words
        await at.type(day)
        await at.do("enter")
    done = newest(shop, StepDone)
    assert isinstance(done, StepDone)
    assert done.step is not None
    assert done.when.astimezone().date() == SOME_DAYS_AGO
