"""A length told with the work is asked about once: is it what the piece reads?"""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Run
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged


@pytest.fixture
def bar(shop: Path) -> Path:
    logged(
        shop, "part", "crossbar", "--process", "sawing",
        "--dimension", "length=179.7 ±0.1", "--dimension", "height=10",
    )  # fmt: skip
    logged(shop, "step", "cut the crossbar", "--makes", "crossbar")
    return shop


def runs(shop: Path) -> list[tuple[str, str]]:
    return [
        (run.piece.name if run.piece else "", f"{one.what.name} {one.value}")
        for run in project(shop).snapshot.all(Run)
        for one in run.readings
    ][1:]


async def test_a_cut_told_with_its_length_is_a_reading_at_one_key(bar: Path) -> None:
    async with bench(bar, (100, 30)) as at:
        await at.say("sawed the crossbar at 179.65")
        await at.settle()
        assert "does crossbar-1 read 179.65 mm in length, measured?" in at.words
        assert runs(bar) == []
        await at.press("ctrl+o")
        assert "y yes" in at.words
        await at.do("y")
        assert "does crossbar-1 read 179.65 mm in length, measured? yes" in at.words
    assert runs(bar) == [("crossbar-1", "length 179.65 mm")]


@pytest.mark.parametrize("one_by_one", [True, False])
async def test_who_types_the_whole_word_gets_no_rest_of_it_on_the_line(
    bar: Path, *, one_by_one: bool
) -> None:
    async with bench(bar, (100, 30)) as at:
        await at.say("sawed the crossbar at 179.65")
        await at.settle()
        await at.press("ctrl+o")
        if one_by_one:
            await at.press("y", "e", "s")
        else:
            await at.type("yes")
        await at.do("enter")
        assert at.line.value == ""
    assert runs(bar) == [("crossbar-1", "length 179.65 mm")]
    assert "es" not in [one.title for one in project(bar).snapshot.entries]


async def test_what_it_really_reads_can_be_typed(bar: Path) -> None:
    async with bench(bar, (100, 30)) as at:
        await at.say("sawed the crossbar at 179.9")
        await at.press("ctrl+o")
        await at.say("179.72")
    assert runs(bar) == [("crossbar-1", "length 179.72 mm")]


@pytest.mark.parametrize(
    "line",
    [
        "sawed the crossbar at 60",  # near no size of it
        "sawed the crossbar",
        "sawed crossbar-7 at 179.7",  # it was measured
    ],
)
async def test_it_keeps_quiet_where_no_size_is_meant_or_it_was_read(
    bar: Path, line: str
) -> None:
    logged(bar, "measure", "crossbar-7", "length", "179.66")
    async with bench(bar, (100, 30)) as at:
        await at.say(line)
        await at.settle()
        assert "measured?" not in at.words
