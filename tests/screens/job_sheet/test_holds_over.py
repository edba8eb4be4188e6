"""A declared hold ticked off on a sheet has ended, whether or not its step was done."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from logbook.advice.advisor import advise
from logbook.publish.sheet.operations import Wanted
from logbook.publish.sheet.sheet import job_sheet, write_html
from logbook.publish.sheet.sheet_text import write_text
from logbook.records.kinds.happenings import Override, StepDone
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged
from tests.screens.job_sheet.sheet_keys import typed_in

DRY = "over: it is dry"


@pytest.fixture
def glued(shop: Path) -> Path:
    """Have a step that waits until the glue is dry."""
    logged(shop, "step", "plane the bed")
    logged(shop, "hold", "plane the bed", "the glue is wet", "--until", "it is dry")
    return shop


def held(shop: Path) -> list[bool]:
    """Tell of each declared hold whether it is open."""
    told = advise(project(shop).snapshot)
    return [one.open for one in told.advice if one.key.startswith("hold ")]


async def test_a_hold_ticked_as_over_has_ended_and_its_step_is_still_to_be_done(
    glued: Path,
) -> None:
    assert held(glued) == [True]
    async with bench(glued, (100, 30)) as at:
        await typed_in(at, (DRY, "x"))
        assert "[x] over: it is dry (plane the bed: the glue is wet)" in at.seen
        await at.do("ctrl+s")
        assert "1 box saved" in at.words
    snapshot = project(glued).snapshot
    [over] = snapshot.all(Override)
    assert over.title == "over: plane the bed: the glue is wet"
    assert over.because == "it does not hold any more"
    assert held(glued) == [False]
    assert not snapshot.all(StepDone)


async def test_a_step_done_with_its_hold_ticked_is_asked_nothing(glued: Path) -> None:
    async with bench(glued, (100, 30)) as at:
        await typed_in(at, (DRY, "x"), ("done: plane the bed", "x"))
        await at.do("ctrl+s")
    snapshot = project(glued).snapshot
    assert len(snapshot.all(StepDone)) == len(snapshot.all(Override)) == 1


async def test_a_hold_left_blank_or_denied_stands(glued: Path) -> None:
    async with bench(glued, (100, 30)) as at:
        await typed_in(at, (DRY, "n"), ("what happened", "planed a trial piece"))
        await at.do("ctrl+s")
        assert "saved" in at.words
    assert held(glued) == [True]


async def test_with_a_reason_beside_the_tick_the_reason_stands(glued: Path) -> None:
    async with bench(glued, (100, 30)) as at:
        await typed_in(at, (DRY, "x"), ("went on because", "dry to the touch"))
        await at.do("ctrl+s")
    [over] = project(glued).snapshot.all(Override)
    assert over.because == "dry to the touch"
    assert held(glued) == [False]


async def test_what_a_hold_asks_to_be_seen_is_ticked_too(shop: Path) -> None:
    logged(shop, "step", "fit the lamp")
    logged(shop, "hold", "fit the lamp", "washers are in", "--grade", "check")
    async with bench(shop, (100, 30)) as at:
        await typed_in(at, ("it is so", "x"), ("done: fit the lamp", "x"))
        await at.do("ctrl+s")
    assert len(project(shop).snapshot.all(StepDone)) == 1


def test_paper_and_terminal_print_the_tick_before_the_room_for_a_reason(
    glued: Path,
) -> None:
    made = job_sheet(project(glued).snapshot, Wanted(), datetime.now(UTC))
    [operation] = made.operations
    [wait] = operation.waits
    assert wait.over is not None
    assert (wait.over.number, wait.box.number) == (1, 2)
    for page in (write_html(made, "A4"), write_text(made, "A4")):
        assert page.index(DRY) < page.index("went on because")
