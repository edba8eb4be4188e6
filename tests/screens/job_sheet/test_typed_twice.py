"""A sheet of paper typed in twice: what it logged already is known, box by box."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Run, StepDone
from logbook.store.typed.drafts import drafts
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.job_sheet.sheet_keys import fill, go_to, number, opened


async def saved_once(at: Bench, shop: Path) -> None:
    await opened(at)
    await fill(at, shop, "length", "40.05")
    await fill(at, shop, "done", "x")
    await at.do("ctrl+s")
    assert "2 boxes saved" in at.words


async def again(at: Bench) -> None:
    """Open the same sheet of paper once more."""
    await at.do("ctrl+s", "enter")


def logged_by(shop: Path) -> tuple[list[str], int]:
    """Give what was read of the bar, and how often a step was done."""
    snapshot = project(shop).snapshot
    runs = [run for run in snapshot.all(Run) if "bar" in run.title]
    read = [str(one.value) for run in runs for one in run.readings]
    return read, len(snapshot.all(StepDone))


async def test_what_a_sheet_logged_stands_in_its_boxes_as_on_record(
    printed: Path,
) -> None:
    async with bench(printed, (100, 30)) as at:
        await saved_once(at, printed)
        await at.do("ctrl+s")
        assert "2 on record" in at.words
        await at.do("enter")
        assert "40.05  on record" in at.seen
        assert "[x] done  on record" in at.seen
        assert "2 boxes of this sheet, typed in before" in at.words


@pytest.mark.parametrize(
    ("key", "read", "done"),
    [("enter", ["40.05 mm"], 1), ("l", ["40.05 mm", "40.05 mm"], 2)],
)
async def test_a_box_typed_a_second_time_is_logged_again_only_where_that_is_said(
    printed: Path, key: str, read: list[str], done: int
) -> None:
    async with bench(printed, (100, 30)) as at:
        await saved_once(at, printed)
        await again(at)
        await fill(at, printed, "length", "40.05")
        await fill(at, printed, "done", "x")
        await at.do("ctrl+s")
        assert "of this sheet are on record already" in at.words
        assert logged_by(printed) == (["40.05 mm"], 1)
        await at.do(key)
    assert logged_by(printed) == (read, done)


async def test_another_value_in_a_box_on_record_is_told_beside_the_one_that_stands(
    printed: Path,
) -> None:
    async with bench(printed, (100, 30)) as at:
        await saved_once(at, printed)
        await again(at)
        box = number(printed, "length")
        await fill(at, printed, "length", "40.03")
        await at.do("ctrl+s")
        assert f"{box} as 40.05, now 40.03" in at.words
        await at.do("enter")
        assert "nothing else was typed" in at.words
    assert logged_by(printed) == (["40.05 mm"], 1)
    assert drafts(printed) == ()


async def test_the_rest_of_a_sheet_is_saved_beside_what_it_logged_before(
    printed: Path,
) -> None:
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        await fill(at, printed, "length", "40.05")
        await at.do("ctrl+s")
        await again(at)
        await fill(at, printed, "done", "x")
        await at.do("ctrl+s")
        assert logged_by(printed) == (["40.05 mm"], 1)
        await again(at)
        assert "40.05  on record" in at.seen
        assert "[x] done  on record" in at.seen


async def test_of_two_savings_the_one_taken_back_is_filled_in_again(
    printed: Path,
) -> None:
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        await fill(at, printed, "length", "40.05")
        await at.do("ctrl+s")
        await again(at)
        await fill(at, printed, "done", "x")
        await at.do("ctrl+s")
        await at.do("f8")
        await again(at)
        assert "40.05  on record" in at.seen
        await go_to(at, number(printed, "done"))
        assert "[x] done" in at.seen
        assert "[x] done  on record" not in at.seen
        await at.do("ctrl+s")
    assert logged_by(printed) == (["40.05 mm"], 1)


async def test_the_sheet_on_paper_is_the_one_enter_opens(printed: Path) -> None:
    async with bench(printed, (100, 30)) as at:
        await saved_once(at, printed)
        await at.do("ctrl+s")
        rows = [row for row in at.seen.split("\n") if "boxes" in row]
        assert "on record" in rows[0]
        assert "as printed now" in rows[1]


async def test_a_tick_says_how_it_is_taken_away_and_minutes_what_they_are(
    printed: Path,
) -> None:
    async with bench(printed, (100, 30)) as at:
        await opened(at)
        await fill(at, printed, "done", "x")
        await go_to(at, number(printed, "done"))
        assert "n takes the tick away" in at.line.placeholder
        await at.say("n")
        await go_to(at, number(printed, "done"))
        assert "[ ] done" in at.seen
        await fill(at, printed, "minutes", "long")
        assert "“long” is no length of time; accepted: 25, 25 min, 1.5 h" in at.words
