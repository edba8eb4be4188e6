"""After an interruption a half-typed line stands where it was typed, and only there."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Note, Run
from logbook.store.typed.drafts import drafts
from tests.screens.bench_keys import Bench, bench, measuring, project
from tests.screens.on_disk import kept, orphaned


def read(folder: Path, what: str) -> dict[str, str]:
    """Give what was read of a size, by its place, the newest last."""
    runs = project(folder).snapshot.all(Run)
    return {
        one.place: str(one.value)
        for run in runs
        for one in run.readings
        if one.what.name == what
    }


async def at_the_second_place(at: Bench) -> None:
    await measuring(at, "bar")
    await at.press("up", "up", "down")
    await at.type("40.0")
    await at.rest()


@pytest.mark.parametrize("way", ["escape", "closed"])
async def test_half_a_reading_comes_back_at_the_place_it_was_typed_for(
    drawn: Path, way: str
) -> None:
    async with bench(drawn) as at:
        await at_the_second_place(at)
        if way == "escape":
            await at.do("escape")
        await kept(at, "40.0", drawn)
        [draft] = drafts(drawn)
        assert "length · right" in draft.for_what
    orphaned(drawn)
    async with bench(drawn) as at:
        await measuring(at, "bar")
        assert at.line.value == "40.0"
        assert "at right" in at.words
        await at.do("end")
        await at.say("3")
        assert drafts(drawn) == ()
    assert read(drawn, "length") == {"": "40.02 mm", "right": "40.03 mm"}


async def test_a_number_typed_anew_takes_the_place_of_half_a_reading(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await at_the_second_place(at)
        await at.do("escape")
        await measuring(at, "bar")
        await at.type("40.04")
        assert at.line.value == "40.04"
        assert "“40.0” gave way; F8 on the empty line brings it back" in at.words
        await at.press(*["backspace"] * 5)
        await at.press("f8")
        assert at.line.value == "40.0"
        assert "at right" in at.words


async def test_a_reading_is_kept_for_the_size_its_run_has_gone_to(drawn: Path) -> None:
    async with bench(drawn) as at:
        await at_the_second_place(at)
        await at.do("up")
        await at.do("escape")
        assert ["length · left" in one.for_what for one in drafts(drawn)] == [True]


async def test_a_run_begun_again_begins_at_the_first_place_nobody_read(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.01")
        await at.do("escape")
        await measuring(at, "bar")
        assert "length at right" in at.line.placeholder


async def test_what_came_back_on_the_bench_is_not_glued_to_what_is_typed_next(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.type("deburred the bed")
        await kept(at, "deburred the bed", shop)
    orphaned(shop)
    async with bench(shop) as at:
        assert at.line.selected_text == "deburred the bed"
        assert "Enter takes it, End goes on with it, typing begins anew" in at.words
        await at.say("what a day")
        assert at.line.value == "deburred the bed"
        await at.press("backspace")
        assert at.line.value == "deburred the be"
    assert "what a day" in [note.title for note in project(shop).snapshot.all(Note)]


async def test_a_line_that_came_back_is_gone_on_with_by_a_blank_or_a_key(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.type("deburred the bed")
        await kept(at, "deburred the bed", shop)
    orphaned(shop)
    async with bench(shop) as at:
        await at.press("backspace")
        await at.type("d twice")
        assert at.line.value == "deburred the bed twice"


async def test_a_batch_left_in_the_middle_is_gone_on_with_where_it_was(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await at.press("f5")
        await at.type("bar 3")
        await at.do("enter")
        await at.say("40.01")
        await at.do("down")
        await at.type("40.0")
        await kept(at, "40.0", drawn)
        typed_for = next(one.for_what for one in drafts(drawn))
    orphaned(drawn)
    async with bench(drawn) as at:
        await at.press("f5")
        await at.type("bar")
        await at.do("enter")
        assert "bar-3" in at.seen
        assert "bar-4" in at.seen
        assert at.line.value == "40.0"
        stands = at.app.screen.walk.stands_at  # type: ignore[attr-defined]
        assert stands in typed_for
