"""Words typed on the page of an entry go to the row they are for, or to none."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Cause, Failure
from logbook.screens.ruled.listing import Listing
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.on_disk import lines_kept

TORE = "base tore at the foot hole"


async def opened(at: Bench) -> None:
    await at.say(TORE)
    await at.do("1")
    await at.do("up", "enter")


def failure(shop: Path) -> Failure:
    [one] = project(shop).snapshot.all(Failure)
    return one


@pytest.mark.parametrize(
    ("typed", "cause"),
    [
        ("cause too little infill", "too little infill"),
        ("cause: too little infill", "too little infill"),
        ("Cause : bent  twice", "bent  twice"),
    ],
)
async def test_words_led_by_the_name_of_a_row_are_for_that_row(
    shop: Path, typed: str, cause: str
) -> None:
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        await at.type(typed)
        assert "cause ›" in at.seen
        await at.do("enter", "enter")
    assert failure(shop).cause == Cause(said=cause)
    assert failure(shop).title == TORE


async def test_words_for_no_row_are_asked_about_and_stay_on_the_line(
    shop: Path,
) -> None:
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        await at.type("too little infill")
        assert "which? ›" in at.seen
        await at.do("enter", "enter")
        assert "for which row?" in at.words
        assert "as “cause: …”" in at.words
        assert at.line.value == "too little infill"
        await at.settle()
        await at.until(lambda: lines_kept(shop) == ["too little infill"])
    assert failure(shop).title == TORE


async def test_words_are_for_the_row_the_arrow_was_brought_to(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        await at.press("down", "up")
        await at.type("cause of much trouble")
        assert "title ›" in at.seen
        await at.do("enter", "enter")
    assert failure(shop).title == "cause of much trouble"


async def test_a_fact_that_is_told_stays_in_its_row(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        before = rows(at)
        listing = at.app.screen.query_one(Listing)
        listing.move(before.index("fact cause"))
        await at.do("enter")
        assert "cause ›" in at.seen
        await at.say("too little infill")
        assert rows(at) == before
        assert listing.chosen is not None
        assert listing.chosen.key == "fact cause"
    assert failure(shop).cause == Cause(said="too little infill")


def rows(at: Bench) -> list[str]:
    """Give the rows of the page in their order, its history aside."""
    keys = [line.key for line in at.app.screen.query_one(Listing)._lines]
    return [key for key in keys if not key.startswith("git")]
