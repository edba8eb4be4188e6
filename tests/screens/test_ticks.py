"""What must be seen before a step closes is ticked by name, whatever line tells it."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Failure, Override, StepDone
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged

CABLE, LAMP = "inside: cable – is it in?", "tested: the lamp lights – was it tried?"


@pytest.fixture
def early(shop: Path) -> Path:
    """Have the lid to be screwed on while the cable is not in its channel yet."""
    logged(shop, "part", "lid")
    logged(shop, "step", "put the cable in its channel", "--uses", "cable")
    logged(
        shop, "step", "screw the lid on", "--uses", "lid", "--closes",
        "--inside", "cable", "--tested", "the lamp lights",
        "--after", "put the cable in its channel",
    )  # fmt: skip
    return shop


@pytest.fixture
def lid(early: Path) -> Path:
    """Have the lid to be screwed on over a cable that lies in its channel."""
    logged(early, "step", "put the cable in its channel", "--done")
    return early


def closed(shop: Path) -> list[StepDone]:
    return [one for one in project(shop).snapshot.all(StepDone) if one.closes]


async def asked(at: Bench) -> None:
    await at.type("screwed the lid on")
    await at.press("enter")
    assert CABLE in at.words


async def test_a_line_that_closes_asks_for_each_tick_and_keeps_them(lid: Path) -> None:
    async with bench(lid) as at:
        await asked(at)
        assert not closed(lid)
        await at.press("y")
        assert LAMP in at.words
        await at.do("y")
        assert at.line.value == ""
    [done] = closed(lid)
    assert (done.inside, done.tested) == (("cable",), ("the lamp lights",))


async def test_a_blind_enter_at_a_tick_logs_nothing(lid: Path) -> None:
    async with bench(lid) as at:
        await asked(at)
        await at.press("enter", "enter")
        assert "not ticked: inside: cable · tested: the lamp lights" in at.words
        await at.do("enter")
        assert at.line.value == "screwed the lid on"
        assert "not done yet" in at.words
    assert not closed(lid)


async def test_closed_all_the_same_it_is_kept_with_the_reason(lid: Path) -> None:
    async with bench(lid) as at:
        await asked(at)
        await at.press("y", "n")
        assert "not ticked: tested: the lamp lights" in at.words
        await at.press("1")
        await at.say("no lamp here today")
    snapshot = project(lid).snapshot
    [done] = closed(lid)
    assert (done.inside, done.tested) == (("cable",), ())
    [override] = snapshot.all(Override)
    assert override.because == "no lamp here today"
    assert override.step is not None
    assert override.step.name == "screw the lid on"


async def test_what_is_no_step_that_closes_asks_for_no_tick(lid: Path) -> None:
    async with bench(lid) as at:
        await at.say("sanded the lid")
        assert CABLE not in at.words
    assert not closed(lid)


async def test_gone_past_its_wait_it_still_asks_its_ticks(early: Path) -> None:
    async with bench(early) as at:
        await at.type("screwed the lid on")
        await at.press("enter", "1")
        assert "why?" in at.words
        await at.type("cable comes in from below")
        await at.press("enter")
        assert CABLE in at.words
        assert not closed(early)
        await at.press("n")
        assert LAMP in at.words
        await at.do("y")
        assert at.line.value == ""
    [done] = closed(early)
    assert (done.inside, done.tested) == ((), ("the lamp lights",))
    because = {one.because for one in project(early).snapshot.all(Override)}
    assert because == {"cable comes in from below"}


async def test_enter_alone_is_no_reason_to_have_closed(early: Path) -> None:
    async with bench(early) as at:
        await at.type("screwed the lid on")
        await at.press("enter", "1")
        assert "little is lost" not in at.words
        await at.do("enter")
        assert at.line.value == "screwed the lid on"
        assert "no reason given, so it is not done yet: the line stays" in at.words
    assert not closed(early)


async def test_an_answer_that_comes_when_the_question_is_over_is_no_letter(
    early: Path,
) -> None:
    async with bench(early) as at:
        await at.type("screwed the lid on")
        await at.press("enter", "2")
        assert "not done yet: the line stays" in at.words
        await at.do("y", "y")
        assert at.line.value == "screwed the lid on"
        assert "“y” answers nothing any more" in at.words
        assert "the line stays" in at.words
        await at.type(" yesterday")
        assert at.line.value == "screwed the lid on yesterday"


async def test_what_was_declared_to_be_checked_and_was_is_on_record(shop: Path) -> None:
    logged(shop, "step", "fit the lamp")
    logged(shop, "hold", "fit the lamp", "the plug is out", "--grade", "check")
    async with bench(shop) as at:
        await at.do("ctrl+n")
        await at.press("enter")
        assert "is it so?" in at.words
        await at.do("y")
    [done] = project(shop).snapshot.all(StepDone)
    assert done.checked == ("fit the lamp: the plug is out",)


async def unseen(at: Bench, reason: str) -> None:
    """Close the lid over a lamp nobody has tried, for this reason."""
    await at.type("screwed the lid on")
    await at.press("enter", "y", "n", "1")
    assert "why?" in at.words
    await at.do(reason)


async def test_what_was_closed_over_unseen_stays_to_be_seen_until_it_was(
    lid: Path,
) -> None:
    reminder = "look again: “screw the lid on” is done, and not ticked: tested: the"
    async with bench(lid, (100, 40)) as at:
        await unseen(at, "1")
        assert f"1 to see: {reminder}" in at.words
        await at.say("sanded the base")
        assert f"1 to see: {reminder}" in at.words
        await at.do("ctrl+n")
        assert "look again screw the lid on" in at.words
        await at.say("2")
        assert "Enter asks whether what it closed over was seen since" in at.words
        await at.do("enter")
        assert "1 it was looked at since, and is so" in at.words
        await at.do("enter")
        assert "look again screw the lid on" in at.words
        await at.do("enter", "1")
        assert "look again screw the lid on" not in at.words
        await at.do("escape")
        assert reminder not in at.words
        assert "seen since looked at: screw the lid on" in at.words
        await at.do("f8")
        assert f"1 to see: {reminder}" in at.words
        await at.do("shift+f8")
        assert reminder not in at.words
    last = project(lid).snapshot.all(Override)[-1]
    assert (last.title, str(last.reason)) == (
        "looked at: screw the lid on",
        "checked already",
    )
    assert len(closed(lid)) == 1


async def test_who_said_that_it_was_seen_is_not_reminded(lid: Path) -> None:
    async with bench(lid, (100, 40)) as at:
        await unseen(at, "2")
        assert "look again" not in at.words
        assert "to see" not in at.words


async def test_what_was_looked_at_and_is_not_so_is_a_failure_and_stays_to_be_seen(
    lid: Path,
) -> None:
    async with bench(lid, (100, 40)) as at:
        await unseen(at, "1")
        await at.do("ctrl+n")
        await at.say("2")
        await at.do("enter")
        assert "3 it was looked at, and is not so" in at.words
        await at.do("3")
        assert "look again screw the lid on" in at.words
    [failure] = project(lid).snapshot.all(Failure)
    assert failure.title.startswith("looked at, and not so: “screw the lid on” is done")
    assert failure.step is not None
    assert failure.step.name == "screw the lid on"
