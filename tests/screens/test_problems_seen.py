"""The bench counts the problems that `check` counts, those of contradictions too."""

from __future__ import annotations

from pathlib import Path

from logbook.records.kinds.happenings import Run
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged


async def test_a_reading_changed_by_hand_is_a_problem_on_the_bench_until_mended(
    shop: Path,
) -> None:
    logged(shop, "measure", "base", "opening", "178.61", "--nominal", "180.0")
    now = project(shop)
    run = now.snapshot.all(Run)[-1]
    file = shop / now.snapshot.path(run)
    right = file.read_text("utf-8")
    assert '"178.61 mm"' in right
    async with bench(shop, (120, 40)) as at:
        await at.settle()
        assert "1 problem" not in at.seen
        file.write_text(right.replace('"178.61 mm"', '"178.61 kg"'), "utf-8")
        await at.until(lambda: "1 problem ·" in at.seen)
        await at.until(lambda: "a mass" in at.seen)
        assert "“178.61 kg”" in at.seen
        file.write_text(right, "utf-8")
        await at.until(lambda: "1 problem" not in at.seen)
        assert "a mass" not in at.seen
