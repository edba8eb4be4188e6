"""What is made to suit is held to what was measured for it on the same sheet."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Run
from logbook.screens.steps.job_sheet import JobSheetTyped
from tests.screens.bench_keys import Bench, project
from tests.screens.conftest import logged
from tests.screens.job_sheet.sheet_keys import fill, go_to, number, sheet


@pytest.fixture
def suited(shop: Path) -> Path:
    """Have a bar that is made last, between the walls of a channel."""
    logged(shop, "part", "channel", "--dimension", "opening=180.0 ±1.2")
    logged(shop, "part", "bar", "--dimension", "length=179.7 ±0.1")
    logged(
        shop, "gap", "bar in it", "channel.opening - bar.length",
        "--limits", "0.1 to 0.5", "--last", "bar.length",
    )  # fmt: skip
    logged(shop, "step", "fold the channel", "--makes", "channel")
    logged(shop, "step", "saw the bar", "--makes", "bar")
    logged(shop, "sheet")
    return shop


def limits(at: Bench, shop: Path) -> str:
    """Give what the sheet accepts of the bar."""
    screen = at.app.screen
    assert isinstance(screen, JobSheetTyped)
    box = screen._typing.boxes[number(shop, "length") - 1]
    return screen._typing.wanted(box, at.app.desk.snapshot)[1]


async def test_its_limits_follow_the_readings_typed_so_far(suited: Path) -> None:
    async with sheet(suited, (118, 30)) as at:
        assert limits(at, suited) == "accept a gap of 0.1 mm to 0.5 mm"
        await fill(at, suited, "opening", "178.60")
        await at.until(lambda: limits(at, suited).startswith("accept 178."))
        before = limits(at, suited)
        await go_to(at, number(suited, "length"))
        assert "its gap gives none yet" not in at.seen
        assert "178.3" in at.seen
        await fill(at, suited, "opening", "178.90")
        await at.until(lambda: limits(at, suited) != before)
        assert limits(at, suited).startswith("accept 178.")
        assert len(project(suited).snapshot.all(Run)) == 1, "none of them is saved yet"


async def test_it_is_judged_by_them_and_by_none_once_they_are_blank_again(
    suited: Path,
) -> None:
    async with sheet(suited, (118, 30)) as at:
        await fill(at, suited, "opening", "178.60")
        await fill(at, suited, "length", "179.70")
        await at.until(lambda: "179.70  does not suit" in at.seen)
        await go_to(at, number(suited, "opening"))
        screen = at.app.screen
        assert isinstance(screen, JobSheetTyped)
        assert screen.box is not None
        screen._keep(screen.box, "")
        await at.until(lambda: "does not suit" not in limits(at, suited))
