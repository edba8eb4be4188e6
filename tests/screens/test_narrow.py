"""On a narrow screen the words that say least go first, and none is cut in a value."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.advice.steps.passing import WaitSort
from logbook.screens.desk.glance import Wait
from logbook.screens.ruled.figures import LOW, Figures, draw
from tests.screens.bench_keys import bench, measuring


@pytest.mark.parametrize(("width", "tool"), [(60, False), (80, True)])
async def test_the_projects_name_stays_longer_than_the_instrument(
    shop: Path, width: int, tool: bool
) -> None:
    async with bench(shop, (width, 24)) as at:
        await measuring(at, "base-1")
        await at.settle()
        band = next(row for row in at.seen.splitlines() if "measuring" in row)
        assert "Stand" in band
        assert "all in git" in band
        assert "measuring base-1" in band
        assert ("instrument" in band) is tool


@pytest.mark.parametrize("width", range(36, 60))
async def test_a_verdict_beside_big_figures_is_read_whole(
    shop: Path, width: int
) -> None:
    async with bench(shop, (60, 24)) as at:
        shown = Figures()
        await at.app.screen.mount(shown)
        shown.styles.width, shown.styles.height = width, LOW
        shown.show("178.36", "mm", "opening at left", "drawn 180 mm", "OFF DRAWING")
        await at.pilot.pause()
        rows = str(shown.render()).splitlines()
    columns = max(len(line.rstrip()) for line in draw("178.36", LOW))
    beside = " ".join(row[columns:].strip() for row in rows)
    assert len(rows) == LOW
    foot = rows[-1][columns:].split()
    assert foot[0] == "mm", "the unit stands whole behind the number"
    if width - columns - 2 >= len("DRAWING"):
        assert "OFF DRAWING" in beside
    if width - columns - 2 >= len("opening at left"):
        assert "opening at left" in beside


def test_a_wait_for_a_gap_begins_with_what_waits() -> None:
    words = "bar in the opening, build 2: cutting the crossbar waits"
    wait = Wait("bar in the opening", words, sort=WaitSort.GAP)
    assert wait.short == "cutting the crossbar waits"
    held = Wait("glue: a tin is here", "glue: a tin is here", sort=WaitSort.HOLD)
    assert held.short == "glue: a tin is here"
