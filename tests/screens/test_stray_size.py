"""A size made by a slip is got rid of in the run: to the one meant, or away."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Run
from tests.screens.bench_keys import Bench, bench, measuring, project
from tests.screens.conftest import logged


@pytest.fixture
def mask(shop: Path) -> Path:
    logged(shop, "part", "mask", "--dimension", "aperture height=24.0 ±0.1")
    return shop


def sizes(shop: Path) -> list[str]:
    return [c.title for c in project(shop).snapshot.all(Characteristic)]


def readings(shop: Path) -> list[tuple[str, str]]:
    runs = project(shop).snapshot.all(Run)
    return [
        (one.what.name, str(one.value))
        for run in runs
        for one in run.readings
        if "base" not in run.title
    ]


async def stray(at: Bench) -> None:
    """Measure what should have been the height as a size of its own."""
    await measuring(at, "mask")
    await at.say("height 24.05")
    await at.press("up")
    await at.do("f5")
    assert "“height” is drawn nowhere and was read 1 time" in at.words


async def test_its_readings_go_to_the_size_that_was_meant(mask: Path) -> None:
    async with bench(mask, (100, 30)) as at:
        await stray(at)
        assert "a aperture height" in at.words
        await at.do("a")
        assert "its readings are of “aperture height”" in at.words
        assert readings(mask) == [("aperture height", "24.05 mm")]
        assert sizes(mask) == ["opening", "aperture height"]
        assert "height  " not in at.seen.replace("aperture height", "")
        await at.do("f8")
        assert readings(mask) == [("height", "24.05 mm")]
        assert sizes(mask) == ["opening", "aperture height", "height"]
    gone = project(mask)
    gone.commit_waiting()
    assert gone.waiting() == ()


async def test_it_goes_with_its_readings_where_it_is_no_size(mask: Path) -> None:
    async with bench(mask, (100, 30)) as at:
        await stray(at)
        await at.do("x")
        assert readings(mask) == []
        assert "height" not in sizes(mask)
        await at.press("up")
        await at.say("24.06")
    assert readings(mask) == [("aperture height", "24.06 mm")]
    after = project(mask)
    after.commit_waiting()
    assert after.waiting() == ()


async def test_a_drawn_size_stays_and_it_is_said_what_takes_it_away(
    mask: Path,
) -> None:
    async with bench(mask, (100, 30)) as at:
        await measuring(at, "mask")
        await at.do("f5")
        assert "“aperture height” is drawn; a revision of the part" in at.words
    assert "aperture height" in sizes(mask)
