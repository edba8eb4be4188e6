"""On a low screen every row has room: nothing is pushed over the edge."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.screens.bench.bench import Bench as BenchScreen
from logbook.screens.record.record import RecordSheet
from logbook.screens.ruled.asking_past import about_waits
from logbook.screens.ruled.look import prose
from logbook.screens.ruled.rows import Row
from logbook.screens.ruled.sheet import Sheet
from tests.screens.bench_keys import Bench, bench, measuring
from tests.screens.conftest import logged

LONG = " ".join(f"{at} words that say at length what came of it" for at in range(20))
LOW = (60, 20)


def fits(at: Bench) -> bool:
    """Tell whether the screen needs no bar to scroll it, and shows its keys."""
    return at.app.screen.max_scroll_y == 0 and "Ctrl-Q leave" in at.words


@pytest.mark.parametrize("size", [LOW, (60, 24), (80, 24), (120, 40)])
async def test_a_long_answer_pushes_nothing_off_the_bench(
    shop: Path, size: tuple[int, int]
) -> None:
    async with bench(shop, size) as at:
        screen = at.app.screen
        assert isinstance(screen, Sheet)
        screen.tell(LONG, label="on disk")
        await at.settle()
        assert fits(at)


@pytest.mark.parametrize("size", [LOW, (60, 24), (80, 24), (120, 40)])
async def test_a_long_answer_below_much_that_is_understood_is_cut(
    shop: Path, size: tuple[int, int]
) -> None:
    async with bench(shop, size) as at:
        screen = at.app.screen
        assert isinstance(screen, Sheet)
        for row in ("understood", "waits"):
            screen.query_one(f"#{row}", Row).say(prose(LONG))
        screen.tell(LONG, label="on disk")
        await at.settle()
        assert fits(at)
        assert "say ›" in at.seen
        assert "0 words" in at.words
        assert "… Ctrl-F" in at.words
        screen.tell(LONG[::-1], label="on disk")
        await at.settle()
        assert fits(at)


@pytest.mark.parametrize("size", [LOW, (80, 24), (120, 40)])
async def test_what_is_cut_is_read_in_full_by_one_key(
    shop: Path, size: tuple[int, int]
) -> None:
    async with bench(shop, size) as at:
        screen = at.app.screen
        assert isinstance(screen, Sheet)
        await at.type("crossbar")
        screen.tell(LONG, label="on disk")
        await at.settle()
        assert "19 words" not in at.words
        await at.do("ctrl+f")
        seen = at.words
        while "more below" in at.words:
            await at.do("pagedown")
            seen += at.words
        assert "0 words" in seen
        assert "19 words that say at length what came of it" in seen
        await at.do("escape")
        assert at.line.value == "crossbar"  # nothing typed was touched


async def test_a_cut_row_of_a_list_is_read_in_full_by_the_same_key(shop: Path) -> None:
    logged(shop, "note", LONG[:90])
    async with bench(shop, LOW) as at:
        assert LONG[:90] not in at.words
        await at.do("up", "ctrl+f")
        assert LONG[:90] in at.words


async def test_where_nothing_is_cut_the_key_says_so(shop: Path) -> None:
    async with bench(shop, (200, 60)) as at:
        await at.do("ctrl+f")
        assert "nothing is cut here" in at.words


async def test_a_long_question_pushes_nothing_off_the_bench(shop: Path) -> None:
    async with bench(shop, LOW) as at:
        screen = at.app.screen
        assert isinstance(screen, BenchScreen)
        screen.ask(about_waits([LONG], "the line stays"), lambda _: None)
        await at.settle()
        assert screen.max_scroll_y == 0
        assert "2 not done yet" in at.words
        assert "Enter not done yet; the line stays" in at.words
        await at.press("escape")
        assert fits(at)


async def test_a_long_answer_pushes_nothing_off_a_run_or_a_record(shop: Path) -> None:
    async with bench(shop, LOW) as at:
        await measuring(at, "base")
        screen = at.app.screen
        assert isinstance(screen, Sheet)
        screen.tell(LONG)
        await at.settle()
        assert fits(at)
        await at.do("escape", "up", "enter")
        assert isinstance(at.app.screen, RecordSheet)
        at.app.screen.tell(LONG)
        await at.settle()
        assert fits(at)
