"""A screen is laid out anew only where something comes or goes, and then once."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.content import Content
from textual.screen import Screen

from logbook.screens.ruled.band import Band
from tests.screens.bench_keys import Bench, bench


def counted(at: Bench) -> list[Screen[object]]:
    """Give a list that gets longer by one with each layout of the screen."""
    layouts: list[Screen[object]] = []
    screen = at.app.screen
    signal = screen.screen_layout_refresh_signal
    signal.subscribe(screen, layouts.append, immediate=True)
    return layouts


async def test_letters_lay_nothing_out_but_the_message_that_goes_away(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.say("sanded the base")
        assert "on disk" in at.seen
        layouts = counted(at)
        await at.type("s")
        assert "on disk" not in at.seen
        assert len(layouts) == 1
        await at.type("anded the lid")
        assert len(layouts) == 1


async def test_how_git_stands_lays_nothing_out(shop: Path) -> None:
    async with bench(shop) as at:
        layouts = counted(at)
        band = at.app.screen.query_one(Band)
        band.show(Content("whose"), Content("12 not in git yet"))
        await at.rest()
        assert "12 not in git yet" in at.seen
        assert not layouts


@pytest.mark.parametrize("columns", [20, 60, 120])
async def test_the_band_cuts_whose_sheet_it_is_and_never_how_git_stands(
    shop: Path, columns: int
) -> None:
    whose, git = "the copy stand with the long arm, second of its kind", "all in git"
    async with bench(shop, (columns, 24)) as at:
        at.app.screen.query_one(Band).show(Content(whose), Content(git))
        await at.rest()
        drawn = next(row for row in at.seen.splitlines() if git in row).strip()
        assert len(drawn) <= columns - 2
        assert (whose in drawn) == (columns == 120)
        assert drawn.endswith(git)
