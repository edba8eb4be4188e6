"""A value put right is held to its size as one typed anew: a slip is asked about."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Deviation, Run
from logbook.records.kinds.record import Record
from logbook.screens.record.record import RecordSheet
from logbook.screens.record.record_rows import rows_of_record
from tests.screens.amending_keys import typed_over
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged


async def opened(at: Bench, record: Record, row: str) -> None:
    """Open one fact of a record for amending."""
    at.app.push_screen(RecordSheet(at.app.desk, record.id))
    await at.settle()
    keys = [line.key for line in rows_of_record(at.app.desk.snapshot, record)]
    await at.press(*["down"] * keys.index(f"fact {row}"))
    await at.do("enter")


def facts(shop: Path) -> tuple[str, str, bool]:
    """Give what was found, what was read, and whether that was said to be so."""
    snapshot = project(shop).snapshot
    [deviation], [run] = snapshot.all(Deviation), snapshot.all(Run)
    [reading] = run.readings
    return str(deviation.found), str(reading.value), reading.confirmed


async def test_ten_times_what_is_drawn_is_asked_about_before_it_is_taken(
    shop: Path,
) -> None:
    [deviation] = project(shop).snapshot.all(Deviation)
    async with bench(shop, (100, 30)) as at:
        await opened(at, deviation, "found")
        await typed_over(at, "1786")
        assert "“1786 mm” is ten times what is drawn, 180 mm: 178.6 mm?" in at.words
        assert facts(shop) == ("178.6 mm", "178.6 mm", False)
        await at.do("escape")
        assert at.line.value == "1786", "dropping the question loses nothing"
        await at.do("enter", "m")
        assert "it stays as it was" in at.words


@pytest.mark.parametrize(("key", "found"), [("t", "1786 mm"), ("m", "178.6 mm")])
async def test_it_is_taken_as_meant_or_as_typed_in_run_and_deviation(
    shop: Path, key: str, found: str
) -> None:
    [run] = project(shop).snapshot.all(Run)
    async with bench(shop, (100, 30)) as at:
        await opened(at, run, "reading 0")
        await typed_over(at, "178.9")
        await at.do("enter")
        await typed_over(at, "1786")
        await at.do(key)
        assert facts(shop) == (found, found, key == "t")


async def test_a_number_typed_over_the_question_takes_the_place_of_the_slip(
    shop: Path,
) -> None:
    [run] = project(shop).snapshot.all(Run)
    async with bench(shop, (100, 30)) as at:
        await opened(at, run, "reading 0")
        await typed_over(at, "17.86")
        assert "a tenth of what is drawn" in at.words
        await at.type("178.7")
        assert at.line.value == "178.7"
        await at.do("enter")
    assert facts(shop) == ("178.7 mm", "178.7 mm", False)


async def test_what_was_said_of_a_value_does_not_hold_of_the_next(shop: Path) -> None:
    [run] = project(shop).snapshot.all(Run)
    async with bench(shop, (100, 30)) as at:
        await opened(at, run, "reading 0")
        await typed_over(at, "1786")
        await at.do("t")
        await at.do("enter")
        await typed_over(at, "178.6")
    assert facts(shop) == ("178.6 mm", "178.6 mm", False)


async def test_a_slip_that_is_put_right_is_no_measure_of_what_is_right(
    shop: Path,
) -> None:
    logged(shop, "measure", "base", "flange", "4.18")
    run = project(shop).snapshot.all(Run)[-1]
    async with bench(shop, (100, 30)) as at:
        await opened(at, run, "reading 0")
        await typed_over(at, "41.8")
        assert "amended: " in at.words
    assert str(project(shop).snapshot.all(Run)[-1].readings[0].value) == "41.8 mm"


async def test_its_title_follows_a_value_to_a_whole_number_and_back(shop: Path) -> None:
    logged(shop, "measure", "base", "opening", "front=178.6", "back=178.7")
    run = project(shop).snapshot.all(Run)[-1]
    before = run.title
    assert "178.6" in before
    async with bench(shop, (100, 30)) as at:
        await opened(at, run, "reading 0")
        await typed_over(at, "1786 front")
        await at.do("t")
        assert "1786" in project(shop).snapshot.all(Run)[-1].title
        await at.do("enter")
        await typed_over(at, "178.6 front")
    assert project(shop).snapshot.all(Run)[-1].title == before
