"""One Esc too many loses nothing: a line that was emptied comes back by one key."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.design import Characteristic
from logbook.screens.bench.bench import Bench as BenchScreen
from tests.screens.amending_keys import on_opening
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged
from tests.screens.on_disk import lines_kept

LINE = "sanded the bed"


async def test_the_key_that_takes_back_brings_an_emptied_line_back(shop: Path) -> None:
    async with bench(shop) as at:
        await at.type(LINE)
        await at.press("escape")
        assert at.line.value == ""
        assert "F8 brings the line back" in at.seen
        await at.settle()
        assert lines_kept(shop) == [LINE]
        await at.press("f8")
        assert at.line.value == LINE
        await at.do("enter")
    assert LINE in [one.title for one in project(shop).snapshot]


async def test_once_something_was_logged_the_key_means_that_again(shop: Path) -> None:
    async with bench(shop) as at:
        await at.type("words of no use")
        await at.press("escape")
        await at.say(LINE)
        await at.do("f8")
        assert "taken back" in at.seen
    assert LINE not in [one.title for one in project(shop).snapshot]
    assert lines_kept(shop) == ["words of no use"]


async def test_a_line_typed_anew_is_not_replaced(shop: Path) -> None:
    async with bench(shop) as at:
        await at.type("words of no use")
        await at.press("escape")
        await at.type("bed")
        await at.do("f8")
        assert at.line.value == "bed"


async def test_an_empty_line_keeps_nothing(shop: Path) -> None:
    async with bench(shop) as at:
        await at.do("escape")
        assert "brings the line back" not in at.seen
    assert lines_kept(shop) == []


@pytest.mark.parametrize("way", ["f10", "f3", "ctrl+b", "f1"])
async def test_an_esc_right_behind_the_way_back_leaves_the_line(
    shop: Path, way: str
) -> None:
    async with bench(shop) as at:
        await at.type(LINE)
        await at.do(way)
        assert not isinstance(at.app.screen, BenchScreen)
        await at.press("escape")
        await at.press("escape")
        assert at.line.value == LINE
        assert "the line stays" in at.seen
        await at.press("escape")
        assert at.line.value == ""


async def test_an_edit_that_was_dropped_is_opened_again(shop: Path) -> None:
    async with bench(shop) as at:
        await on_opening(at, shop)
        await at.press("enter")
        await at.type(" of the base")
        await at.press("escape")
        assert at.line.value == ""
        await at.settle()
        assert lines_kept(shop) == ["opening of the base"]
        await at.press("f8")
        assert at.line.value == "opening of the base"
        await at.do("enter")
    titles = [c.title for c in project(shop).snapshot.all(Characteristic)]
    assert "opening of the base" in titles


async def test_a_fact_left_as_it_was_keeps_nothing(shop: Path) -> None:
    async with bench(shop) as at:
        await on_opening(at, shop)
        await at.press("enter")
        await at.do("escape")
    assert lines_kept(shop) == []


async def test_words_typed_on_a_record_before_a_fact_is_opened_are_kept(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await on_opening(at, shop)
        await at.type("opening of the base")
        await at.settle()
    assert lines_kept(shop) == ["opening of the base"]


async def test_a_reason_that_is_being_typed_is_kept(shop: Path) -> None:
    logged(shop, "step", "fold the base", "--makes", "base")
    logged(shop, "hold", "fold the base", "the sheet is not here")
    async with bench(shop) as at:
        await at.do("ctrl+g")
        await at.press("enter")
        await at.type("a spare sheet")
        await at.until(lambda: "a spare sheet" in lines_kept(shop))
        await at.do("enter")
    assert lines_kept(shop) == []


async def test_a_line_typed_at_the_first_question_of_a_bench_is_kept(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.do("f12")
        assert at.app.screen.question is not None  # type: ignore[attr-defined]
        await at.type("sanded the bed")
        await at.until(lambda: "sanded the bed" in "\n".join(lines_kept(shop)))
        await at.do("escape")
        assert "sanded the bed" in "\n".join([at.line.value, *lines_kept(shop)])
