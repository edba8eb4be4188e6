"""A half-typed number of a job sheet stands in its box again, and in no other."""

from __future__ import annotations

from pathlib import Path

from tests.screens.bench_keys import bench
from tests.screens.job_sheet.sheet_keys import go_to, number, opened
from tests.screens.on_disk import kept, orphaned


async def test_half_a_number_of_a_job_sheet_comes_back_in_its_box(
    printed: Path,
) -> None:
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        box = number(printed, "length")
        await go_to(at, box)
        await at.type("40")
        await kept(at, "40", printed)
    orphaned(printed)
    async with bench(printed, (100, 30)) as at:
        await at.do("ctrl+s", "enter")
        assert at.line.value == "40"
        assert at.app.screen._at == box - 1  # type: ignore[attr-defined]


async def test_half_a_number_left_by_an_arrow_comes_back_by_its_key(
    printed: Path,
) -> None:
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        box = number(printed, "length")
        await go_to(at, box)
        await at.type("40")
        await at.press("down")
        assert at.line.value == ""
        await at.press("f8")
        assert at.line.value == "40"
        assert at.app.screen._at == box - 1  # type: ignore[attr-defined]
