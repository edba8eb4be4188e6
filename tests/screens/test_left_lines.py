"""What stood in a line when its screen went away is kept, and comes back by a key."""

from __future__ import annotations

from pathlib import Path

from logbook.screens.find import Find
from logbook.screens.gaps.gaps import Gaps
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.steps.steps import Steps
from logbook.screens.sums.calculator import SumSheet
from tests.screens.bench_keys import Bench, bench
from tests.screens.conftest import logged
from tests.screens.on_disk import kept, lines_kept, orphaned


async def test_what_narrowed_a_list_is_offered_again_and_put_back_by_a_key(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.do("f2")
        assert isinstance(at.app.screen, Find)
        await at.type("opening")
        await at.do("escape")
        await at.do("f2")
        assert at.line.value == "", "the next letters would come behind it"
        assert "“opening” was typed here" in at.words
        await at.do("f8")
        assert at.line.value == "opening"
        assert "should be 180" in at.words


async def test_a_filter_is_there_after_the_app_went_away(shop: Path) -> None:
    async with bench(shop) as at:
        await at.do("f2")
        await at.type("opening")
        await kept(at, "opening", shop)
    orphaned(shop)
    async with bench(shop) as at:
        await at.do("f2")
        assert "“opening” was typed here" in at.words
        await at.press("f8")
        assert at.line.value == "opening"


async def test_what_led_to_a_choice_is_not_kept(shop: Path) -> None:
    async with bench(shop) as at:
        await at.press("f3")
        await at.say("base")
        await at.do("escape")
    assert lines_kept(shop) == []


async def test_what_is_supposed_is_kept_and_comes_back_when_dropped(
    shop: Path,
) -> None:
    logged(shop, "part", "crossbar", "--dimension", "length=179.7 ±0.1")
    logged(shop, "gap", "bar", "base.opening - crossbar.length", "--limits", "0 to 1")
    async with bench(shop) as at:
        await at.do("ctrl+b")
        assert isinstance(at.app.screen, Gaps)
        await at.type("base opening 179.2")
        await kept(at, "base opening 179.2", shop)
        await at.press("escape")
        assert at.line.value == ""
        assert isinstance(at.app.screen, Gaps)
        await at.press("f8")
        assert at.line.value == "base opening 179.2"


async def test_an_entry_logged_since_is_what_the_key_takes_back(shop: Path) -> None:
    logged(shop, "step", "fold the base")
    async with bench(shop) as at:
        await at.do("ctrl+n")
        assert isinstance(at.app.screen, Steps)
        await at.type("25 min")
        await at.press("escape")
        await at.do("enter")
        await at.do("f8")
        assert "taken back" in at.seen
        assert at.line.value == ""


async def opened(at: Bench, name: str) -> SumSheet:
    await at.press("f10")
    await at.say(name)
    sheet = at.app.screen
    assert isinstance(sheet, SumSheet)
    return sheet


def inputs(sheet: SumSheet) -> list[str]:
    return [line.value for line in sheet.query(EntryLine) if line.value]


async def test_a_form_that_was_left_is_filled_in_again_and_can_be_emptied(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await opened(at, "flat-length")
        await at.type("12")
        await at.press("down")
        await at.type("30")
        await kept(at, "legs: 12\nbend_angles: 30", shop)
    orphaned(shop)
    async with bench(shop) as at:
        sheet = await opened(at, "flat-length")
        assert inputs(sheet) == ["12", "30"]
        assert "this was being filled in" in at.words
        await at.press("f8")
        assert inputs(sheet) == []
        await at.press("f8")
        assert inputs(sheet) == ["12", "30"]
        await at.do("escape")
        assert inputs(await opened(at, "flat-length")) == ["12", "30"]


async def test_what_is_typed_next_stands_in_the_place_of_what_was_filled_in(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await opened(at, "flat-length")
        await at.type("12")
        await at.press("down")
        await at.type("30")
        await at.do("escape")
        sheet = await opened(at, "flat-length")
        assert inputs(sheet) == ["12", "30"]
        await at.type("45")
        await at.press("down")
        await at.type("60")
        assert inputs(sheet) == ["45", "60"]
        await at.press("up")
        await at.type("1")
        assert inputs(sheet) == ["451", "60"]
