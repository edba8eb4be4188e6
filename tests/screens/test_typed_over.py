"""What was refused and is typed over, or pasted behind a first row, is not lost."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.events import Paste

from logbook.screens.steps.steps import Steps
from tests.screens.bench_keys import Bench, bench, measuring
from tests.screens.conftest import logged
from tests.screens.on_disk import lines_kept, readings, titles

WORDS = "the bar has a burr at the hole, filed it off"


async def in_a_batch(at: Bench) -> None:
    await at.press("f5")
    await at.type("bar")
    await at.do("enter")


async def in_a_run(at: Bench) -> None:
    await measuring(at, "bar")


@pytest.mark.parametrize("begun", [in_a_run, in_a_batch])
async def test_words_that_a_number_is_typed_over_are_among_the_drafts(
    drawn: Path, begun: object
) -> None:
    async with bench(drawn) as at:
        await begun(at)  # type: ignore[operator]
        await at.say(WORDS)
        assert "not taken" in at.seen
        await at.type("40.03")
        assert "F8 on the empty line brings it back" in at.words
        await at.do("enter")
        assert lines_kept(drawn) == [WORDS]
    assert "40.03 mm" in readings(drawn)


@pytest.mark.parametrize("key", ["backspace", "delete", "ctrl+u"])
async def test_words_that_a_key_deleted_at_once_come_back(
    drawn: Path, key: str
) -> None:
    async with bench(drawn) as at:
        await in_a_run(at)
        await at.say(WORDS)
        await at.do(key)
        assert at.line.value == ""
        await at.do("f8")
        assert at.line.value == WORDS


async def test_what_is_pasted_over_refused_words_takes_their_place(drawn: Path) -> None:
    async with bench(drawn) as at:
        await in_a_run(at)
        await at.say(WORDS)
        at.line.post_message(Paste("40.04"))
        await at.settle()
        assert at.line.value == "40.04"
        await at.do("enter")
        assert lines_kept(drawn) == [WORDS]
    assert "40.04 mm" in readings(drawn)


async def test_a_refused_line_in_the_order_of_work_gives_way_to_the_next(
    shop: Path,
) -> None:
    logged(shop, "step", "fold the base", "--makes", "base")
    async with bench(shop) as at:
        await at.do("ctrl+n")
        assert isinstance(at.app.screen, Steps)
        await at.say("setp glue the window in")
        assert "begins with “step”" in at.words
        await at.say("step glue the window in")
        assert "glue the window in" in at.seen
        await at.settle()
        assert lines_kept(shop) == ["setp glue the window in"]


async def test_two_rows_pasted_are_two_lines(shop: Path) -> None:
    async with bench(shop) as at:
        at.line.post_message(Paste("sanded the bed\noiled the rails\n"))
        await at.settle()
        assert at.line.value == "sanded the bed"
        assert "“oiled the rails” comes when the line is empty" in at.words
        await at.do("enter")
        assert at.line.value == "oiled the rails"
        await at.do("enter")
    assert {"sanded the bed", "oiled the rails"} <= {*titles(shop)}


async def test_rows_that_wait_are_on_disk_with_the_line(shop: Path) -> None:
    async with bench(shop) as at:
        at.line.post_message(Paste("sanded the bed\roiled the rails"))
        await at.until(lambda: lines_kept(shop) == ["sanded the bed\noiled the rails"])


async def test_rows_pasted_where_a_list_is_narrowed_are_one_line(shop: Path) -> None:
    async with bench(shop) as at:
        await at.do("f2")
        at.line.post_message(Paste("sanded\nthe bed"))
        await at.settle()
        assert at.line.value == "sanded the bed"
