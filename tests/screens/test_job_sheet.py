"""A job sheet typed in at the bench: printed order, judged, kept, saved as entries."""

from __future__ import annotations

import subprocess
from datetime import timedelta
from pathlib import Path

import pytest
from textual.events import Key

from logbook.publish.sheet.boxes import Sort
from logbook.publish.sheet.kept_sheets import kept_marks, sheet_boxes
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import (
    Deviation,
    Note,
    Override,
    Run,
    StepDone,
    Work,
)
from logbook.records.kinds.words import Blame
from logbook.screens.steps.job_sheet import JobSheetTyped
from logbook.store.typed.drafts import drafts
from logbook.store.typed.work_clock import read_clock, started
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged


@pytest.fixture
def printed(shop: Path) -> Path:
    """Print a sheet with readings, a step, and checks before it closes."""
    logged(
        shop, "part", "bar", "--dimension", "length=40.0 ±0.1",
    )  # fmt: skip
    logged(shop, "step", "saw the bar", "--makes", "bar")
    logged(shop, "step", "close the lid", "--closes", "--inside", "cable")
    logged(shop, "sheet")
    return shop


def number(shop: Path, label: str) -> int:
    [mark] = kept_marks(shop)
    boxes, _ = sheet_boxes(shop, project(shop).snapshot, mark)
    return next(box.number for box in boxes if label in box.label)


async def go_to(at: Bench, box: int) -> None:
    screen = at.app.screen
    assert isinstance(screen, JobSheetTyped)
    screen.action_walk(box - 1 - screen._at)
    await at.rest()


async def opened(at: Bench) -> None:
    await at.press("ctrl+s")
    await at.settle()
    assert "as printed now" in at.seen
    await at.press("enter")
    await at.settle()


async def test_boxes_are_typed_in_and_saved_as_entries(printed: Path) -> None:
    runs = len(project(printed).snapshot.all(Run))
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        await go_to(at, number(printed, "length"))
        await at.say("40.05")
        assert "40.05" in at.seen
        await go_to(at, number(printed, "cable"))
        assert "before you close" in at.seen
        await at.say("x")
        await at.press("ctrl+s")
        await at.settle()
        assert "boxes saved" in at.seen
    snapshot = project(printed).snapshot
    assert len(snapshot.all(Run)) == runs + 1
    assert str(snapshot.all(Run)[-1].readings[0].value) == "40.05 mm"
    assert drafts(printed) == ()


async def test_off_drawing_leads_at_the_run_s_key_to_its_deviation(
    printed: Path,
) -> None:
    before = len(project(printed).snapshot.all(Deviation))
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        await go_to(at, number(printed, "length"))
        await at.type("40.3")
        assert "OFF DRAWING" in at.seen
        await at.press("enter")
        assert "is off drawing: F6 logs it" in " ".join(at.seen.split())
        await at.press("f6")
        assert "would another builder meet this?" in at.seen
        await at.press("m")
        await at.press("ctrl+s")
        await at.settle()
    found = project(printed).snapshot.all(Deviation)
    assert len(found) == before + 1
    assert found[-1].met_by_others is Blame.MACHINE
    assert str(found[-1].found) == "40.3 mm"


async def test_a_new_piece_is_judged_by_the_revision_it_is_made_to(shop: Path) -> None:
    logged(shop, "part", "bar", "--dimension", "length=40.0 ±0.1")
    logged(shop, "revise", "bar", "--dimension", "length=42.0", "--changed", "longer")
    logged(shop, "sheet")
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        await go_to(at, number(shop, "length"))
        assert "drawn 42.0 mm" in at.words
        await at.type("42.05")
        assert "OFF DRAWING" not in at.seen
        await at.press(*["backspace"] * 5)
        await at.say("40.05")
        assert "is off drawing: F6 logs it" in at.words
        await at.press("f6", "m", "ctrl+s")
        await at.settle()
    found = project(shop).snapshot.all(Deviation)[-1]
    assert str(found.wanted) == "42.0 mm"
    assert found.title.endswith("length 40.05 mm should be 42.0 mm")


async def test_what_was_typed_is_there_when_it_is_opened_again(printed: Path) -> None:
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        await go_to(at, number(printed, "length"))
        await at.say("40.05")
        await at.press("escape")
        await at.settle()
    async with bench(printed, (100, 30)) as at:
        await at.press("ctrl+s")
        await at.settle()
        assert "1 typed and not saved" in at.seen
        await at.press("enter")
        await at.settle()
        assert "40.05" in at.seen
        assert not project(printed).snapshot.all(StepDone)


@pytest.mark.parametrize("typed", ["4o.3", "40.3.1", "40 kg", "-40", "1/0", "\x1b[2J"])
async def test_what_is_no_reading_is_refused_beside_its_box(
    printed: Path, typed: str
) -> None:
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        await go_to(at, number(printed, "length"))
        at.line.put(typed)
        await at.press("enter")
        await at.settle()
        assert "not taken" in at.seen
        assert "accepted" in at.seen
        assert at.line.value == typed
        assert at.line.has_focus


async def test_a_number_behind_a_doubted_one_does_not_take_its_box(
    printed: Path,
) -> None:
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        box = number(printed, "length")
        await go_to(at, box)
        for sign in "400\r40.02\r":
            key = {".": "full_stop", "\r": "enter"}.get(sign, sign)
            at.app.post_message(Key(key, sign))
        await at.settle()
        screen = at.app.screen
        assert isinstance(screen, JobSheetTyped)
        assert box not in screen._typing.texts
        assert "400 not taken" in at.words


async def test_the_day_and_hour_in_its_head_is_when_it_happened(printed: Path) -> None:
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        assert "worked on (day, hour): the moment it is saved" in at.words
        await go_to(at, 0)
        await at.say("tomorrow 16:00")
        assert "not taken" in at.seen
        await at.press(*["backspace"] * 20)
        await at.say("2024-03-08 16:30")
        await go_to(at, number(printed, "length"))
        await at.say("40.05")
        await at.press("ctrl+s")
        await at.settle()
        assert "1 boxes saved" in at.seen
    run = project(printed).snapshot.all(Run)[-1]
    assert f"{run.when.astimezone():%Y-%m-%d %H:%M}" == "2024-03-08 16:30"


async def test_its_entries_stand_in_the_order_of_the_sheet(printed: Path) -> None:
    known = len(project(printed).snapshot.entries)
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        boxes = at.app.screen
        assert isinstance(boxes, JobSheetTyped)
        for box in boxes._typing.boxes:
            if box.sort is not Sort.TIME and box.step:
                await go_to(at, box.number)
                given = {Sort.DONE: "x", Sort.CHECK: "x", Sort.READING: "40.05"}
                await at.say(given.get(box.sort, f"seen at box {box.number}"))
        await at.press("ctrl+s")
        await at.settle()
    made = project(printed).snapshot.entries[known:]
    kinds = [type(one).__name__ for one in made]
    assert kinds == ["Run", "StepDone", "Note", "StepDone", "Note"]
    assert [one.title for one in made if isinstance(one, StepDone)] == [
        "saw the bar", "close the lid",
    ]  # fmt: skip


async def test_taken_back_its_boxes_are_filled_in_again(printed: Path) -> None:
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        await go_to(at, number(printed, "length"))
        await at.say("40.05")
        await at.press("ctrl+s")
        await at.settle()
        assert drafts(printed) == ()
        await at.press("f8")
        await at.settle()
        assert "its boxes are filled in again" in at.words
        await at.press("ctrl+s")
        await at.settle()
        assert "1 typed and not saved" in at.seen
        await at.press("enter")
        await at.settle()
        assert "40.05" in at.seen
        await at.press("ctrl+s")
        await at.settle()
    values = [str(r.value) for r in project(printed).snapshot.all(Run)[-1].readings]
    assert values == ["40.05 mm"]


async def start_clock(at: Bench) -> None:
    snapshot = at.app.desk.snapshot
    [saw] = [one for one in snapshot.all(Step) if one.title == "saw the bar"]
    began = at.app.desk.now() - timedelta(minutes=9)
    at.app.desk.clock.start(started(saw.title, "", began, saw.id))
    await at.settle()


@pytest.mark.parametrize("minutes", ["25", ""])
async def test_the_clock_on_a_step_ends_with_the_sheet_that_logs_it(
    printed: Path, minutes: str
) -> None:
    async with bench(printed, (100, 30)) as at:
        await start_clock(at)
        await opened(at)
        done = number(printed, "done")
        await go_to(at, done)
        await at.say("x")
        if minutes:
            await at.say(minutes)
        await at.press("ctrl+s")
        await at.settle()
        assert "the clock on saw the bar is stopped" in at.words
        assert at.app.desk.clock.on is None
    assert read_clock(printed) is None
    snapshot = project(printed).snapshot
    worked = [str(one.time) for one in snapshot.all(Work)]
    [step] = snapshot.all(StepDone)
    assert (str(step.time), worked) == (
        ("25 min", []) if minutes else ("None", ["9 min"])
    )


def unknown_to_git(shop: Path) -> str:
    command = ["git", "-C", str(shop), "status", "--porcelain"]
    done = subprocess.run(command, check=True, capture_output=True, text=True)
    return done.stdout


def pages(shop: Path) -> list[str]:
    places = shop.glob("as-built/job-sheets/job-sheet-*.html")
    return [page.read_text("utf-8") for page in places]


async def test_the_sheet_is_written_for_the_printer_and_says_so(
    printed: Path,
) -> None:
    async with bench(printed, (100, 30)) as at:
        await at.press("ctrl+s")
        await at.settle()
        assert "Ctrl-S writes sheet " in at.words
        assert "saw the bar" in at.words
        await at.press("ctrl+s")
        await at.settle()
        assert "print it from a browser" in at.words
    [page] = pages(printed)
    assert "saw the bar" in page
    assert "Typed in on the bench with <b>Ctrl-S</b>" in page
    assert unknown_to_git(printed) == ""
    assert project(printed).snapshot.problems == ()


async def test_what_is_being_typed_in_a_box_is_kept_and_an_esc_brings_it_back(
    printed: Path,
) -> None:
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        await go_to(at, number(printed, "length"))
        await at.type("40.0")
        await at.until(lambda: [one.text for one in drafts(printed)] == ["40.0"])
        await at.press("escape")
        assert at.line.value == ""
        await at.press("f8")
        assert at.line.value == "40.0"


async def test_a_step_ticked_as_done_with_a_blank_look_stays_on_that_box(
    printed: Path,
) -> None:
    logged(
        printed, "step", "close the lid", "--closes", "--inside", "cable",
        "--tested", "the lamp lights",
    )  # fmt: skip
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        boxes = at.app.screen
        assert isinstance(boxes, JobSheetTyped)
        every = boxes._typing.boxes
        cable = next(one for one in every if one.place == "cable")
        await go_to(at, cable.number)
        for typed in ("x", "", "x"):
            await at.say(typed)
        await at.press("ctrl+s")
        await at.settle()
        lamp = f"{cable.number + 1} tested: the lamp lights is blank"
        assert f"{lamp}, and “close the lid” is ticked as done" in at.words
        assert not project(printed).snapshot.all(StepDone)
        await at.say("x")
        await at.press("ctrl+s")
        await at.settle()
    [done] = project(printed).snapshot.all(StepDone)
    assert (done.inside, done.tested) == (("cable",), ("the lamp lights",))


@pytest.mark.parametrize(("key", "logged_as_done"), [("enter", 1), ("l", 2)])
async def test_a_step_done_meanwhile_is_asked_about_and_left_out_or_logged_again(
    printed: Path, key: str, logged_as_done: int
) -> None:
    logged(printed, "step", "close the lid", "--done", "--inside", "cable")
    async with bench(printed, (100, 30)) as at:
        await at.press("ctrl+s", "down", "enter")
        await at.settle()
        await go_to(at, number(printed, "inside: cable"))
        for typed in ("x", "x", "", "a rivet sat crooked"):
            await at.say(typed)
        await at.press("ctrl+s")
        await at.settle()
        assert "close the lid is on record as done on build 1 already" in at.words
        assert not project(printed).snapshot.all(Note)
        await at.press(key)
        await at.settle()
        said = "done already, not logged again: close the lid" in at.words
        assert said is (key == "enter")
    snapshot = project(printed).snapshot
    assert len(snapshot.all(StepDone)) == logged_as_done
    assert [one.title for one in snapshot.all(Note)] == ["a rivet sat crooked"]


async def test_a_sheet_of_which_everything_is_on_record_is_not_saved(
    printed: Path,
) -> None:
    logged(printed, "step", "close the lid", "--done", "--inside", "cable")
    async with bench(printed, (100, 30)) as at:
        await at.press("ctrl+s", "down", "enter")
        await at.settle()
        await go_to(at, number(printed, "inside: cable") + 1)
        await at.say("x")
        await at.press("ctrl+s")
        await at.settle()
        await at.press("enter")
        await at.settle()
        assert "done already, and nothing else is on the sheet" in at.words
    assert len(project(printed).snapshot.all(StepDone)) == 1


@pytest.fixture
def lid(shop: Path) -> Path:
    """Have a lid that closes over a cable that is put in before, with a lamp to try."""
    logged(shop, "step", "put the cable in", "--uses", "cable")
    logged(
        shop, "step", "screw the lid on", "--closes", "--inside", "cable",
        "--tested", "the lamp lights",
    )  # fmt: skip
    return shop


async def typed_in(at: Bench, *labels: tuple[str, str]) -> None:
    """Type in today's sheet what stands beside each label, of the step if it is one."""
    await opened(at)
    screen = at.app.screen
    assert isinstance(screen, JobSheetTyped)
    steps = {one.id: one.title for one in at.app.desk.snapshot.all(Step)}
    for label, text in labels:
        [box] = [
            box
            for box in screen._typing.boxes
            if label in {box.label, f"{box.label}: {steps.get(box.step)}"}
        ]
        await go_to(at, box.number)
        await at.say(text)


CABLE = ("done: put the cable in", "x")
INSIDE, LAMP = ("inside: cable", "x"), ("tested: the lamp lights", "n")
LID = ("done: screw the lid on", "x")


async def test_a_look_that_was_not_taken_is_asked_for_its_reason_before_it_is_saved(
    lid: Path,
) -> None:
    async with bench(lid, (100, 30)) as at:
        await typed_in(at, CABLE, INSIDE, LAMP, LID)
        await at.press("ctrl+s")
        await at.settle()
        assert "“screw the lid on”: not ticked: tested: the lamp lights" in at.words
        assert not project(lid).snapshot.all(StepDone)
        await at.press("1", "1")
        await at.settle()
    snapshot = project(lid).snapshot
    done = {one.title: one for one in snapshot.all(StepDone)}
    assert done["screw the lid on"].inside == ("cable",)
    assert done["screw the lid on"].tested == ()
    [over] = snapshot.all(Override)
    assert (over.hold, over.because) == ("screw the lid on", "it can be opened again")


@pytest.mark.parametrize("keys", [("enter",), ("2",), ("escape",), ("1", "enter")])
async def test_without_a_reason_the_sheet_stays_on_that_row_and_nothing_is_saved(
    lid: Path, keys: tuple[str, ...]
) -> None:
    async with bench(lid, (100, 30)) as at:
        await typed_in(at, CABLE, INSIDE, LAMP, LID)
        await at.press("ctrl+s")
        await at.settle()
        await at.press(*keys)
        await at.settle()
        screen = at.app.screen
        assert isinstance(screen, JobSheetTyped)
        assert screen.box is not None
        assert screen.box.label == "tested: the lamp lights"
        assert "“screw the lid on”: " in at.words
        assert "not done yet" in at.words
        assert not project(lid).snapshot.all(Override)
        assert not project(lid).snapshot.all(StepDone)
        await at.say("x")
        await at.press("ctrl+s")
        await at.settle()
    assert len(project(lid).snapshot.all(StepDone)) == 2


async def test_a_step_that_waits_is_asked_about_unless_the_sheet_ends_its_wait(
    lid: Path,
) -> None:
    async with bench(lid, (100, 30)) as at:
        await typed_in(at, INSIDE, ("tested: the lamp lights", "x"), LID)
        await at.press("ctrl+s")
        await at.settle()
        assert "“put the cable in” is not done" in at.words
        await at.press("1")
        await at.type("it came in from below")
        await at.press("enter")
        await at.settle()
    [over] = project(lid).snapshot.all(Override)
    assert over.because == "it came in from below"


async def test_what_the_sheet_tells_before_a_step_ends_its_wait(lid: Path) -> None:
    async with bench(lid, (100, 30)) as at:
        await typed_in(at, CABLE, INSIDE, ("tested: the lamp lights", "x"), LID)
        await at.press("ctrl+s")
        await at.settle()
    assert not project(lid).snapshot.all(Override)
    assert len(project(lid).snapshot.all(StepDone)) == 2


async def test_a_step_that_waits_and_lacks_a_look_is_gone_past_with_one_reason(
    lid: Path,
) -> None:
    async with bench(lid, (100, 30)) as at:
        await typed_in(at, INSIDE, LAMP, LID)
        await at.press("ctrl+s")
        await at.settle()
        assert "not ticked: tested: the lamp lights" in at.words
        assert "“screw the lid on”: “screw" not in at.words
        await at.press("1", "1")
        await at.settle()
    assert len(project(lid).snapshot.all(Override)) == 1
