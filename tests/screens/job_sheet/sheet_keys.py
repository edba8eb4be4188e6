"""What a hand does on a job sheet: open it, go to a box, type what stands there."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

from logbook.publish.sheet.kept_sheets import kept_marks, sheet_boxes
from logbook.records.kinds.assembling import Step
from logbook.screens.steps.job_sheet import JobSheetTyped
from tests.screens.bench_keys import Bench, bench, project


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
    await at.do("ctrl+s")
    assert "as printed now" in at.seen
    await at.do("enter")


@asynccontextmanager
async def sheet(
    folder: Path, size: tuple[int, int] = (100, 30)
) -> AsyncIterator[Bench]:
    """Open the bench, and on it the day's sheet as it was printed."""
    async with bench(folder, size) as at:
        await opened(at)
        yield at


async def fill(at: Bench, shop: Path, label: str, text: str) -> None:
    """Type into the box with this label."""
    await go_to(at, number(shop, label))
    await at.say(text)


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
