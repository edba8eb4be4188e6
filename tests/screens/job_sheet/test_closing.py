"""A sheet that closes a step: what was not looked at, and what still waits."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import (
    Override,
    StepDone,
)
from logbook.screens.steps.job_sheet import JobSheetTyped
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged
from tests.screens.job_sheet.sheet_keys import go_to, sheet, typed_in


async def test_a_step_ticked_as_done_with_a_blank_look_stays_on_that_box(
    printed: Path,
) -> None:
    logged(
        printed, "step", "close the lid", "--closes", "--inside", "cable",
        "--tested", "the lamp lights",
    )  # fmt: skip
    logged(printed, "sheet")
    async with sheet(printed) as at:
        boxes = at.app.screen
        assert isinstance(boxes, JobSheetTyped)
        every = boxes._typing.boxes
        cable = next(one for one in every if one.place == "cable")
        await go_to(at, cable.number)
        for typed in ("x", "", "x"):
            await at.say(typed)
        await at.do("ctrl+s")
        lamp = f"{cable.number + 1} tested: the lamp lights is blank"
        assert f"{lamp}, and “close the lid” is ticked as done" in at.words
        assert not project(printed).snapshot.all(StepDone)
        await at.say("x")
        await at.do("ctrl+s")
    [done] = project(printed).snapshot.all(StepDone)
    assert (done.inside, done.tested) == (("cable",), ("the lamp lights",))


CABLE = ("done: put the cable in", "x")
INSIDE, LAMP = ("inside: cable", "x"), ("tested: the lamp lights", "n")
LID = ("done: screw the lid on", "x")


async def test_a_look_that_was_not_taken_is_asked_for_its_reason_before_it_is_saved(
    lid: Path,
) -> None:
    async with bench(lid, (100, 30)) as at:
        await typed_in(at, CABLE, INSIDE, LAMP, LID)
        await at.do("ctrl+s")
        assert "“screw the lid on”: not ticked: tested: the lamp lights" in at.words
        assert not project(lid).snapshot.all(StepDone)
        await at.do("1", "1")
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
        await at.do("ctrl+s")
        await at.do(*keys)
        screen = at.app.screen
        assert isinstance(screen, JobSheetTyped)
        assert screen.box is not None
        assert screen.box.label == "tested: the lamp lights"
        assert "“screw the lid on”: " in at.words
        assert "not done yet" in at.words
        assert not project(lid).snapshot.all(Override)
        assert not project(lid).snapshot.all(StepDone)
        await at.say("x")
        await at.do("ctrl+s")
    assert len(project(lid).snapshot.all(StepDone)) == 2


async def test_a_step_that_waits_is_asked_about_unless_the_sheet_ends_its_wait(
    lid: Path,
) -> None:
    async with bench(lid, (100, 30)) as at:
        await typed_in(at, INSIDE, ("tested: the lamp lights", "x"), LID)
        await at.do("ctrl+s")
        assert "“put the cable in” is not done" in at.words
        await at.press("1")
        await at.say("it came in from below")
    [over] = project(lid).snapshot.all(Override)
    assert over.because == "it came in from below"


async def test_what_the_sheet_tells_before_a_step_ends_its_wait(lid: Path) -> None:
    async with bench(lid, (100, 30)) as at:
        await typed_in(at, CABLE, INSIDE, ("tested: the lamp lights", "x"), LID)
        await at.do("ctrl+s")
    assert not project(lid).snapshot.all(Override)
    assert len(project(lid).snapshot.all(StepDone)) == 2


async def test_a_step_that_waits_and_lacks_a_look_is_gone_past_with_one_reason(
    lid: Path,
) -> None:
    async with bench(lid, (100, 30)) as at:
        await typed_in(at, INSIDE, LAMP, LID)
        await at.do("ctrl+s")
        assert "not ticked: tested: the lamp lights" in at.words
        assert "“screw the lid on”: “screw" not in at.words
        await at.do("1", "1")
    assert len(project(lid).snapshot.all(Override)) == 1
