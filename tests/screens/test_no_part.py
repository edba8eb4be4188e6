"""On its screen: a part that is none goes, one of two names is joined, or withdrawn."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.project import Project
from logbook.records.kinds.design import Part
from tests.screens.bench_keys import Bench, bench
from tests.screens.conftest import logged


@pytest.fixture
def slipped(shop: Path) -> Path:
    logged(shop, "part", "window, shell", "--new")
    logged(shop, "piece", "window, shell")
    logged(shop, "measure", "cross bar", "length", "178.4", "--new")
    return shop


def parts(shop: Path) -> set[str]:
    return {part.title for part in Project.open(shop).snapshot.all(Part)}


async def at_part(at: Bench, name: str) -> None:
    await at.press("ctrl+p")
    await at.type(name)
    await at.do("enter", "f7")


async def test_it_says_what_goes_and_takes_it_away(slipped: Path) -> None:
    async with bench(slipped, (120, 40)) as at:
        await at_part(at, "window")
        assert "piece window, shell-1; revision window, shell first issue" in at.words
        await at.do("enter")
        assert "window, shell is no part; F8 brings it back" in at.words
        assert "window, shell" not in parts(slipped)
        await at.do("f8")
        assert "window, shell" in parts(slipped)


async def test_what_was_said_of_it_is_told_and_stays(slipped: Path) -> None:
    async with bench(slipped, (120, 40)) as at:
        await at_part(at, "cross bar")
        assert "measuring run cross bar-1 length 178.4" in at.words
        assert "take it away" not in at.words


async def test_one_of_two_names_is_joined_to_the_other(slipped: Path) -> None:
    logged(slipped, "part", "crossbar", "--new")
    async with bench(slipped, (120, 40)) as at:
        await at_part(at, "cross bar")
        await at.do("enter")
        await at.type("crossbar")
        await at.do("enter")
        assert "cross bar is crossbar; cross bar-1 is now crossbar-1" in at.words
    assert "cross bar" not in parts(slipped)


async def test_a_withdrawn_part_is_out_of_the_list_and_found_by_its_name(
    slipped: Path,
) -> None:
    async with bench(slipped, (120, 40)) as at:
        await at_part(at, "cross bar")
        await at.do("down")
        await at.type("sawn out of the base")
        await at.do("enter")
        assert "cross bar is withdrawn" in at.words
        await at.do("escape")
        await at.press("ctrl+p")
        assert "cross bar" not in at.words
        await at.type("cross")
        assert "cross bar" in at.words
        assert "withdrawn" in at.words


async def test_a_line_leads_there(slipped: Path) -> None:
    async with bench(slipped) as at:
        await at.type("window, shell is not a part")
        assert "no part · “window, shell” is no part" in at.words
        await at.do("enter")
        assert "it is none: take it away" in at.words
        await at.do("enter")
    assert "window, shell" not in parts(slipped)
