"""What was taken back in a window is brought back there, the last one first."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import StepDone, Work
from logbook.screens.record.record import RecordSheet
from tests.screens.bench_keys import bench, measuring, project
from tests.screens.conftest import logged
from tests.screens.on_disk import readings, titles

BACK = "shift+f8"


async def test_the_key_that_brings_back_is_said_and_brings_the_last_ones_back(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.say("sanded the bed")
        await at.say("oiled the bed")
        stood = titles(shop)
        await at.do("f8")
        assert "oiled the bed; Shift-F8 brings it back" in at.words
        await at.do("f8")
        assert titles(shop) == stood[:-2]
        await at.do(BACK)
        assert "here again" in at.seen
        assert "step: sanded the bed" in at.words
        await at.do(BACK)
        assert titles(shop) == stood
        await at.do("f8")
        assert titles(shop) == stood[:-1]


@pytest.mark.parametrize("way", [("f20",), ("f1", *"bring", "enter")])
async def test_where_the_key_is_sent_as_another_it_is_brought_back_all_the_same(
    way: tuple[str, ...], shop: Path
) -> None:
    """A Linux console sends Shift-F8 as F20 (kf20 of its terminfo entry)."""
    async with bench(shop) as at:
        await at.say("sanded the bed")
        await at.do("f8")
        assert "Shift-F8 brings it back" in at.words
        await at.do(*way)
        assert titles(shop)[-1] == "sanded the bed"


async def test_what_was_logged_in_between_stays_and_so_does_what_is_typed(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.say("sanded the bed")
        await at.do("f8")
        await at.say("filed the crossbar")
        await at.type("half a li")
        await at.do(BACK)
        assert at.line.value == "half a li"
    assert {"sanded the bed", "filed the crossbar"} <= set(titles(shop))


async def test_where_nothing_was_taken_back_here_the_shells_way_is_said(
    shop: Path,
) -> None:
    logged(shop, "note", "the wide jaw is back")
    logged(shop, "undo")
    async with bench(shop, (120, 30)) as at:
        await at.do(BACK)
        assert "nothing was taken back in this window that can be brought" in at.words
        assert "logbook undo --bring-back in the shell brings back “note: the" in (
            at.words
        )
    assert "the wide jaw is back" not in titles(shop)


async def test_a_reading_comes_back_into_its_run(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await measuring(at, "base")
        await at.say("178.6")
        stood = readings(shop)
        await at.do("f8")
        assert readings(shop) != stood
        await at.do(BACK)
        assert readings(shop) == stood
        await at.do("f8")
        assert readings(shop) != stood


async def test_a_record_that_was_taken_back_comes_back_on_its_own_page(
    shop: Path,
) -> None:
    async with bench(shop, (120, 30)) as at:
        await at.say("sanded the bed")
        note = project(shop).snapshot.entries[-1]
        at.app.push_screen(RecordSheet(at.app.desk, note.id))
        await at.settle()
        await at.do("f8", "f8")
        assert note.id not in project(shop).snapshot
        await at.do(BACK)
        assert project(shop).snapshot[note.id] == note
        assert "sanded the bed" in at.words


async def test_a_question_comes_first(shop: Path) -> None:
    async with bench(shop) as at:
        await at.say("sanded the bed")
        await at.do("f8")
        await at.type("bed cracked at the rim")
        await at.press("enter")
        await at.do(BACK)
        assert "the question comes first" in at.words
        await at.press("escape")
    assert "sanded the bed" not in titles(shop)


async def test_what_another_took_the_place_of_is_refused_in_a_sentence(
    shop: Path,
) -> None:
    async with bench(shop, (120, 30)) as at:
        await at.say("part collar")
        await at.do("f8")
        logged(shop, "part", "collar")
        await at.do(BACK)
        assert "stays taken back" in at.words
    assert not project(shop).snapshot.problems


async def test_the_clock_that_went_on_by_an_undo_stops_again(shop: Path) -> None:
    logged(shop, "step", "rivet the lid on")
    async with bench(shop, (120, 30)) as at:
        desk = at.app.desk
        await at.do("ctrl+t", "1", "enter")
        await at.say("step 1: done")
        assert desk.clock.look() is None
        await at.do("f8")
        assert desk.clock.look() is not None
        await at.do(BACK)
        assert "is stopped again" in at.words
        assert desk.clock.look() is None
        assert len(project(shop).snapshot.all(StepDone)) == 1
        await at.do("f8")
        assert desk.clock.look() is not None
    assert not project(shop).snapshot.all(Work)
