"""A run is begun by the name of a size; numbers of no size wait for its name."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Run
from logbook.screens.run.measure import Measure
from tests.screens.bench_keys import bench, measuring, project
from tests.screens.conftest import logged


@pytest.fixture
def sized(shop: Path) -> Path:
    """A bar with two sizes."""
    logged(
        shop, "part", "bar", "--dimension", "length=40 ±0.1",
        "--dimension", "width=20 ±0.1",
    )  # fmt: skip
    return shop


def parts(shop: Path) -> list[str]:
    return [part.title for part in project(shop).snapshot.all(Part)]


@pytest.mark.parametrize("asked", ["bar width", "Bar wid", "bar-1 width"])
async def test_a_part_with_its_size_begins_there_and_makes_no_part(
    sized: Path, asked: str
) -> None:
    before = parts(sized)
    async with bench(sized) as at:
        await measuring(at, asked)
        assert isinstance(at.app.screen, Measure)
        assert at.app.screen.measured == "measuring bar-1"
        await at.say("20.02")
    assert parts(sized) == before
    [run] = (run for run in project(sized).snapshot.all(Run) if "bar" in run.title)
    assert [(one.what.name, str(one.value)) for one in run.readings] == [
        ("width", "20.02 mm")
    ]


async def test_a_name_with_words_that_are_no_size_is_a_new_part(sized: Path) -> None:
    async with bench(sized) as at:
        await measuring(at, "bar clamp")
        screen = at.app.screen
        assert isinstance(screen, Measure)
        assert screen.measured == "measuring bar clamp-1"


async def test_numbers_of_no_size_are_kept_and_get_their_name(shop: Path) -> None:
    async with bench(shop) as at:
        await measuring(at, "spacer")
        for number in ("12.01", "12.03", "12.02"):
            await at.say(number)
        assert "“12.01 12.03 12.02” name no size yet" in at.words
        await at.say("length")
    [run] = (run for run in project(shop).snapshot.all(Run) if "spacer" in run.title)
    read = [(one.what.name, one.place, str(one.value)) for one in run.readings]
    assert read == [
        ("length", "1", "12.01 mm"),
        ("length", "2", "12.03 mm"),
        ("length", "3", "12.02 mm"),
    ]


async def test_numbers_of_no_size_come_back_with_the_run(shop: Path) -> None:
    async with bench(shop) as at:
        await measuring(at, "spacer")
        await at.say("12.01")
        await at.say("12.03")
        await at.do("escape")
        await measuring(at, "spacer")
        await at.settle()
        assert at.line.value == "12.01 12.03"
