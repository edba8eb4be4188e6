"""A job sheet typed in at the bench: printed order, judged, kept, saved as entries."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.events import Key

from logbook.publish.sheet.boxes import Sort
from logbook.records.kinds.happenings import (
    Deviation,
    Run,
    StepDone,
)
from logbook.records.kinds.words import Blame
from logbook.screens.steps.job_sheet import JobSheetTyped
from logbook.store.typed.drafts import drafts
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import draw_limits, logged
from tests.screens.job_sheet.sheet_keys import fill, go_to, number, sheet


async def test_boxes_are_typed_in_and_saved_as_entries(printed: Path) -> None:
    runs = len(project(printed).snapshot.all(Run))
    async with sheet(printed) as at:
        await fill(at, printed, "length", "40.05")
        assert "40.05" in at.seen
        await go_to(at, number(printed, "cable"))
        assert "before you close" in at.seen
        await at.say("x")
        await at.do("ctrl+s")
        assert "boxes saved" in at.seen
    snapshot = project(printed).snapshot
    assert len(snapshot.all(Run)) == runs + 1
    assert str(snapshot.all(Run)[-1].readings[0].value) == "40.05 mm"
    assert drafts(printed) == ()


async def test_off_drawing_leads_at_the_run_s_key_to_its_deviation(
    printed: Path,
) -> None:
    before = len(project(printed).snapshot.all(Deviation))
    async with sheet(printed) as at:
        await go_to(at, number(printed, "length"))
        await at.type("40.3")
        assert "OFF DRAWING" in at.seen
        await at.press("enter")
        assert "is off drawing: F6 logs it" in " ".join(at.seen.split())
        await at.press("f6")
        assert "would another builder meet this?" in at.seen
        await at.press("m")
        await at.do("ctrl+s")
    found = project(printed).snapshot.all(Deviation)
    assert len(found) == before + 1
    assert found[-1].met_by_others is Blame.MACHINE
    assert str(found[-1].found) == "40.3 mm"


async def test_a_new_piece_is_judged_by_the_revision_it_is_made_to(shop: Path) -> None:
    logged(shop, "part", "bar", "--dimension", "length=40.0 ±0.1")
    logged(shop, "revise", "bar", "--dimension", "length=42.0", "--changed", "longer")
    logged(shop, "sheet")
    async with sheet(shop) as at:
        await go_to(at, number(shop, "length"))
        assert "drawn 42.0 mm" in at.words
        await at.type("42.05")
        assert "OFF DRAWING" not in at.seen
        await at.press(*["backspace"] * 5)
        await at.say("40.05")
        assert "is off drawing: F6 logs it" in at.words
        await at.do("f6", "m", "ctrl+s")
    found = project(shop).snapshot.all(Deviation)[-1]
    assert str(found.wanted) == "42.0 mm"
    assert found.title.endswith("length 40.05 mm should be 42.0 mm")


async def test_what_was_typed_is_there_when_it_is_opened_again(printed: Path) -> None:
    async with sheet(printed) as at:
        await fill(at, printed, "length", "40.05")
        await at.do("escape")
    async with bench(printed, (100, 30)) as at:
        await at.do("ctrl+s")
        assert "1 typed and not saved" in at.seen
        await at.do("enter")
        assert "40.05" in at.seen
        assert not project(printed).snapshot.all(StepDone)


@pytest.mark.parametrize("typed", ["4o.3", "40.3.1", "40 kg", "-40", "1/0", "\x1b[2J"])
async def test_what_is_no_reading_is_refused_beside_its_box(
    printed: Path, typed: str
) -> None:
    async with sheet(printed) as at:
        await go_to(at, number(printed, "length"))
        at.line.put(typed)
        await at.do("enter")
        assert "not taken" in at.seen
        assert "accepted" in at.seen
        assert at.line.value == typed
        assert at.line.has_focus


async def copied(at: Bench, numbers: str) -> JobSheetTyped:
    """Type numbers as who copies them from paper, never looking up."""
    for sign in numbers:
        key = {".": "full_stop", "\r": "enter"}.get(sign, sign)
        at.app.post_message(Key(key, sign))
    await at.settle()
    assert isinstance(at.app.screen, JobSheetTyped)
    return at.app.screen


async def test_a_number_behind_a_doubted_one_that_fits_no_other_box_is_of_it(
    printed: Path,
) -> None:
    async with sheet(printed) as at:
        box = number(printed, "length")
        await go_to(at, box)
        screen = await copied(at, "400\r40.02\r")
        assert screen._typing.texts[box] == "40.02"
        assert "400 not taken" in at.words


@pytest.mark.parametrize(("key", "at_box"), [("a", 1), ("n", 2)])
async def test_a_number_behind_a_doubted_one_is_asked_for_its_box(
    shop: Path, key: str, at_box: int
) -> None:
    logged(shop, "part", "bar", "--dimension", "length=40.0")
    draw_limits(shop)
    logged(shop, "step", "saw the bar", "--makes", "bar")
    logged(shop, "sheet")
    async with sheet(shop) as at:
        await go_to(at, 1)
        screen = await copied(at, "400\r40.03\r40.25\r")
        assert screen._typing.texts.get(1, "") == ""
        assert (
            "40.03 mm: read again at length at left, or is it of length at right?"
            in at.words
        )
        await at.do(key)
        assert screen._typing.texts[at_box] == "40.03"
        assert at.line.value == "40.25"


async def test_a_second_slip_over_the_question_of_a_first_is_asked_for_its_box_too(
    shop: Path,
) -> None:
    logged(shop, "part", "bar", "--dimension", "length=40.0")
    draw_limits(shop)
    logged(shop, "step", "saw the bar", "--makes", "bar")
    logged(shop, "sheet")
    async with sheet(shop) as at:
        await go_to(at, 1)
        screen = await copied(at, "400.1\r400.2\r")
        await at.do("m")
        assert "40.02 mm: read again at length at left, or is it" in at.words
        await at.do("n")
        assert screen._typing.texts == {2: "40.02 mm"}
        assert "400.1 not taken" in at.words
        await go_to(at, 1)
        await copied(at, "400.3\r400.4\r400.5\r")
        await at.do("escape")
        assert "400.1, 400.3, 400.4 not taken" in at.words


async def test_the_day_and_hour_in_its_head_is_when_it_happened(printed: Path) -> None:
    async with sheet(printed) as at:
        assert "worked on (day, hour): the moment it is saved" in at.words
        await go_to(at, 0)
        await at.say("tomorrow 16:00")
        assert "not taken" in at.seen
        await at.press(*["backspace"] * 20)
        await at.say("2024-03-08 16:30")
        await fill(at, printed, "length", "40.05")
        await at.do("ctrl+s")
        assert "1 box saved" in at.seen
    run = project(printed).snapshot.all(Run)[-1]
    assert f"{run.when.astimezone():%Y-%m-%d %H:%M}" == "2024-03-08 16:30"


async def test_its_entries_stand_in_the_order_of_the_sheet(printed: Path) -> None:
    known = len(project(printed).snapshot.entries)
    async with sheet(printed) as at:
        boxes = at.app.screen
        assert isinstance(boxes, JobSheetTyped)
        for box in boxes._typing.boxes:
            if box.sort is not Sort.TIME and box.step:
                await go_to(at, box.number)
                given = {Sort.DONE: "x", Sort.CHECK: "x", Sort.READING: "40.05"}
                await at.say(given.get(box.sort, f"seen at box {box.number}"))
        await at.do("ctrl+s")
    made = project(printed).snapshot.entries[known:]
    kinds = [type(one).__name__ for one in made]
    assert kinds == ["Run", "StepDone", "Note", "StepDone", "Note"]
    assert [one.title for one in made if isinstance(one, StepDone)] == [
        "saw the bar", "close the lid",
    ]  # fmt: skip


async def test_taken_back_its_boxes_are_filled_in_again(printed: Path) -> None:
    async with sheet(printed) as at:
        await fill(at, printed, "length", "40.05")
        await at.do("ctrl+s")
        assert drafts(printed) == ()
        await at.do("f8")
        assert "its boxes are filled in again" in at.words
        await at.do("ctrl+s")
        assert "1 typed and not saved" in at.seen
        await at.do("enter")
        assert "40.05" in at.seen
        await at.do("ctrl+s")
    values = [str(r.value) for r in project(printed).snapshot.all(Run)[-1].readings]
    assert values == ["40.05 mm"]


async def test_what_is_being_typed_in_a_box_is_kept_and_an_esc_brings_it_back(
    printed: Path,
) -> None:
    async with sheet(printed) as at:
        await go_to(at, number(printed, "length"))
        await at.type("40.0")
        await at.until(lambda: [one.text for one in drafts(printed)] == ["40.0"])
        await at.press("escape")
        assert at.line.value == ""
        await at.press("f8")
        assert at.line.value == "40.0"
