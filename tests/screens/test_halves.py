"""A list and what is known of its row: below it, or beside it on a broad screen."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.screens.ruled.halves import BROAD, Halves
from logbook.screens.ruled.listing import Listing
from logbook.screens.ruled.passage import Passage
from tests.screens.bench_keys import bench
from tests.screens.conftest import logged


@pytest.mark.parametrize("way", [("ctrl+p",), ("ctrl+b",), ("f2",), ("f3",)])
async def test_they_stand_beside_each_other_where_there_is_room(
    shop: Path, way: tuple[str, ...]
) -> None:
    logged(shop, "part", "bar", "--dimension", "length=179.7 ±0.1")
    logged(shop, "gap", "bar in it", "base.opening - bar.length", "--limits", "0 to 1")
    async with bench(shop, (BROAD, 40)) as at:
        await at.do(*way)
        for width in (BROAD, BROAD - 1, 200, 60):
            await at.pilot.resize_terminal(width, 30)
            await at.settle()
            halves = at.app.screen.query_one(Halves)
            first, other = halves.query_one(Listing), halves.query_one(Passage)
            if width >= BROAD:
                assert first.region.right == other.region.x
                assert first.region.height == other.region.height
            else:
                assert first.region.bottom == other.region.y
                assert first.region.width == other.region.width == width
            assert other.region.right == width
            assert first.size.width == halves.list_columns
            assert other.width == halves.word_columns


async def test_a_part_has_its_rows_to_themselves_until_there_is_room_for_both(
    shop: Path,
) -> None:
    async with bench(shop, (120, 40)) as at:
        await at.do("ctrl+p", "enter")
        assert not at.app.screen.query_one(Passage).display
        await at.pilot.resize_terminal(160, 40)
        await at.settle()
        assert at.app.screen.query_one(Passage).display
        await at.do("down", "down")
        assert "drawn" in at.seen


async def test_a_wide_bench_says_each_in_full_that_a_narrower_one_counts(
    shop: Path,
) -> None:
    async with bench(shop, (160, 30)) as at:
        assert "Tab lists them" in at.seen
        assert "Tab lists: " not in at.words
        await at.pilot.resize_terminal(120, 30)
        await at.settle()
        assert "Tab lists them" not in at.seen
        assert "Tab lists: base opening 178.6 should be 180" in at.words


async def test_a_record_and_a_run_use_what_a_broad_screen_has(shop: Path) -> None:
    async with bench(shop, (120, 40)) as at:
        await at.do("up", "enter")
        await at.press("down", "down")
        halves = at.app.screen.query_one(Halves)
        assert halves.query_one(Passage).display
        assert halves.query_one(Listing).region.width == 60
        await at.pilot.resize_terminal(100, 30)
        await at.settle()
        assert not halves.query_one(Passage).display
        assert halves.query_one(Listing).region.width == 100
        await at.do("escape", "f3", "enter")
        run = at.app.screen.query_one(Halves)
        assert not run.query_one(Passage).display
        await at.pilot.resize_terminal(120, 40)
        await at.settle()
        assert run.query_one(Passage).display
        assert "opening of base-1" in at.words
        await at.say("178.7")
        await at.press("up")
        assert "178.7 mm: no limits drawn" in at.words
