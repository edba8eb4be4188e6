"""What the boxes of a step take and took stands in one column, whatever they are of."""

from __future__ import annotations

from pathlib import Path

from logbook.screens.steps.box_rows import rows_of_sheet
from logbook.screens.steps.job_sheet import JobSheetTyped
from tests.screens.conftest import logged
from tests.screens.job_sheet.sheet_keys import sheet


async def test_the_sizes_of_a_step_stand_under_each_other(shop: Path) -> None:
    sizes = ("--dimension", "length=40.0 ±0.1", "--dimension", "foot width=40.0 ±0.1")
    logged(shop, "part", "bar", *sizes)
    logged(shop, "step", "saw the bar", "--makes", "bar")
    logged(shop, "sheet")
    async with sheet(shop) as at:
        typed_in = at.app.screen
        assert isinstance(typed_in, JobSheetTyped)
        rows = rows_of_sheet(typed_in._typing, at.app.desk.snapshot, {})
        asked = [one.words for one in rows if "40.0 mm" in one.words]
    assert len(asked) == 2
    assert len({words.index("40.0 mm") for words in asked}) == 1
