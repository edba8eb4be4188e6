"""A wait that is over is said once, where the eye is."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.bench_keys import bench, measuring
from tests.screens.conftest import logged


@pytest.fixture
def waiting(shop: Path) -> Path:
    """A crossbar made to suit an opening that nobody has measured in this build."""
    logged(
        shop, "part", "base", "--process", "folding",
        "--dimension", "opening=180.0 ±1.2", "--crosses", "opening=2 bends",
    )  # fmt: skip
    logged(
        shop, "part", "crossbar", "--dimension", "length=179.7 ±0.1",
        "--remake-time", "40 min", "--remake-cost", "6 EUR",
    )  # fmt: skip
    logged(
        shop, "gap", "bar in the opening", "base.opening - crossbar.length",
        "--limits", "0.1 to 0.5", "--last", "crossbar.length",
    )  # fmt: skip
    logged(shop, "build", "build 2", "--when", "2024-03-08T10:00")
    logged(shop, "piece", "base", "--when", "2024-03-08T10:05")
    return shop


async def test_the_run_says_that_the_wait_is_over_and_what_to_make(
    waiting: Path,
) -> None:
    async with bench(waiting, (120, 40)) as at:
        assert "1 wait:" in at.words
        await measuring(at, "base-2")
        await at.say("178.62")
        await at.settle()
        assert "the wait is over" in at.words
        assert "finish 178.32 mm" in at.words
        await at.type("1")
        assert "the wait is over" not in at.words
        await at.press("backspace", "up")
        await at.say("right 178.60")
        assert "finish 178.30 mm" in at.words, "the smallest counts"
        assert at.words.count("the wait is over") == 1
        await at.press("up")
        await at.say("left 178.7")
        # the middle between what goes in at 178.60 and is not loose at 178.70
        assert "finish 178.35 mm" in at.words


async def test_the_bench_says_it_beside_what_was_taken(waiting: Path) -> None:
    async with bench(waiting, (120, 40)) as at:
        await at.say("base-2 opening 178.62")
        await at.do("enter")
        assert "the wait is over" in at.words
        assert at.words.count("the wait is over") == 1
        await at.say("sanded the bed")
        assert "the wait is over" not in at.words


async def test_a_wait_gone_past_or_of_another_build_is_not_over(
    waiting: Path,
) -> None:
    async with bench(waiting, (120, 40)) as at:
        await at.do("f4")
        assert "the wait is over" not in at.words
        await at.do("f4")
        await at.do("ctrl+g", "1", "1")
        assert "the wait is over" not in at.words


async def test_a_step_that_still_asks_for_its_ticks_is_no_end_of_waiting(
    waiting: Path,
) -> None:
    logged(waiting, "part", "lid")
    logged(waiting, "step", "put the cable in", "--uses", "cable")
    logged(
        waiting, "step", "screw the lid on", "--uses", "lid", "--closes",
        "--inside", "cable", "--after", "put the cable in",
    )  # fmt: skip
    async with bench(waiting, (120, 40)) as at:
        await measuring(at, "base-2")
        logged(waiting, "step", "put the cable in", "--done")
        await at.say("178.62")
        await at.settle()
        assert at.words.count("the wait is over") == 1
        assert "finish 178.32 mm" in at.words
        assert "before “screw the lid on” closes" not in at.words


async def test_a_step_that_was_done_past_its_wait_ends_none(shop: Path) -> None:
    logged(shop, "part", "lid")
    logged(shop, "step", "put the cable in", "--uses", "cable")
    logged(shop, "step", "screw the lid on", "--uses", "lid", "--closes",
           "--inside", "cable")  # fmt: skip
    async with bench(shop, (120, 40)) as at:
        await at.say("screwed the lid on")
        await at.do("1", "1", "n")
        assert "step: screw the lid on" in at.words
        assert "the wait is over" not in at.words


async def test_the_part_says_the_rule_and_the_size_told_of_what_is_made_to_suit(
    waiting: Path,
) -> None:
    async with bench(waiting, (120, 40)) as at:
        await at.press("ctrl+p")
        await at.type("crossbar")
        await at.press("enter")
        await at.settle()
        rule = "length: made to suit, measured opening of the base − 0.3 mm"
        assert rule in at.words
        assert "build 2: no size told yet" in at.words
        await at.press("escape", "escape")
        await measuring(at, "base-2")
        await at.say("178.62")
        await at.press("escape")
        await at.settle()
        await at.say("crossbar length 178.3")
        await at.press("ctrl+p")
        await at.type("crossbar")
        await at.press("enter")
        await at.settle()
        assert "build 2: 178.32 mm, accepted 178.16 mm to 178.48 mm" in at.words
        assert "no limits drawn" not in at.words
        assert "within" in at.words


async def test_what_is_to_be_made_now_is_read_in_full_where_it_is_cut(
    waiting: Path,
) -> None:
    async with bench(waiting, (60, 20)) as at:
        await measuring(at, "base-2")
        await at.say("178.62")
        await at.settle()
        [gap] = at.app.desk.advice.of("gaps")
        last = gap.statement.split()[-1]
        assert last not in at.words, "no room for all of it here"
        await at.do("ctrl+f")
        read = at.words
        for _ in range(20):
            await at.press("down")
            read += at.words
        assert "the wait is over" in read
        assert last in read


async def test_where_nothing_is_cut_the_message_that_stands_stays(
    waiting: Path,
) -> None:
    async with bench(waiting, (200, 60)) as at:
        await at.say("base-2 opening 178.62")
        await at.do("enter")
        await at.do("ctrl+f")
        assert "the wait is over" in at.words
