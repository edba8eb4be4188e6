"""What cannot be taken is refused in one sentence; the words and the focus stay."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.events import Paste
from textual.widgets import Input

from logbook.records.kinds.happenings import Reading, Run
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.run.measure import Measure
from logbook.screens.sums.calculator import SumSheet
from tests.screens.bench_keys import Bench, bench, measuring, project
from tests.screens.conftest import logged

BAD_SIZES = {
    "a wrong unit": "5 kg",
    "two decimal marks": "2.0.1",
    "a comma too many": "12,5,5",
    "a denominator of zero": "1/0 in",
    "below nothing": "-2",
    "a letter in the number": "2o.5",
    "an unknown unit": "5 furlongs",
}
SIZE = (100, 30)


def words(at: Bench) -> str:
    return " ".join(at.seen.replace("│", " ").split())


def line_of(at: Bench, name: str) -> EntryLine:
    sheet = at.app.screen
    assert isinstance(sheet, SumSheet)
    pairs = zip(sheet._sum.inputs, sheet.query(EntryLine), strict=True)
    return next(line for asked, line in pairs if asked.name == name)


@pytest.mark.parametrize("typed", BAD_SIZES.values(), ids=list(BAD_SIZES))
async def test_a_sum_refuses_it_below_its_field(shop: Path, typed: str) -> None:
    async with bench(shop, SIZE) as at:
        await at.app.push_screen(SumSheet(at.app.desk, "bend-allowance"))
        for name, value in (("bend_angle", "90"), ("radius", "2")):
            line_of(at, name).put(value)
        line = line_of(at, "thickness")
        line.focus()
        line.put(typed)
        await at.do("enter")
        assert "not yet" in at.seen
        assert "thickness" in words(at)
        assert "accepted" in words(at)
        assert line.value == typed
        assert line.has_focus
        line.put("2")
        await at.do("enter")
        assert "not yet" not in at.seen


@pytest.mark.parametrize("typed", BAD_SIZES.values(), ids=list(BAD_SIZES))
async def test_a_run_refuses_it_beside_its_line(shop: Path, typed: str) -> None:
    logged(shop, "part", "bar", "--dimension", "length=40.0 ±0.1")
    async with bench(shop, SIZE) as at:
        before = readings(shop)
        await measuring(at, "bar")
        await at.say(typed)
        assert "not taken" in at.seen
        assert "accepted" in words(at)
        assert at.line.value == typed
        assert at.line.has_focus
        assert readings(shop) == before


@pytest.mark.parametrize("typed", BAD_SIZES.values(), ids=list(BAD_SIZES))
async def test_a_revision_refuses_it_beside_its_line(shop: Path, typed: str) -> None:
    logged(shop, "part", "bar", "--dimension", "length=40.0 ±0.1")
    async with bench(shop, SIZE) as at:
        await at.press("ctrl+r")
        await at.say("bar")
        await at.say(typed)
        assert "not taken" in at.seen
        assert "accepted" in words(at)
        assert at.line.value == typed
        assert at.line.has_focus


@pytest.mark.parametrize("way", ["ctrl+r", "f3", "f10"])
async def test_a_megabyte_and_control_signs_come_into_no_line(
    shop: Path, way: str
) -> None:
    logged(shop, "part", "bar", "--dimension", "length=40.0 ±0.1")
    chosen = {"ctrl+r": "bar", "f3": "bar", "f10": "bend-allowance"}[way]
    async with bench(shop, SIZE) as at:
        await at.press(way)
        await at.say(chosen)
        field = at.app.screen.focused
        assert isinstance(field, Input)
        field.post_message(Paste("9" * 1_000_000))
        await at.settle()
        assert field.value == ""
        assert "1,000,000 characters were pasted and not taken in" in words(at)
        field.post_message(Paste("4\x1b[2J0\x00\n"))
        await at.settle()
        assert all(sign.isprintable() for sign in field.value)
        assert field.has_focus


async def test_a_line_about_tomorrow_is_not_taken(shop: Path) -> None:
    async with bench(shop, SIZE) as at:
        before = readings(shop)
        await at.say("2099-01-01 base opening 178.6")
        assert readings(shop) == before
        assert at.line.value == "2099-01-01 base opening 178.6"
        assert at.line.has_focus
        assert "lies ahead" in words(at)


def readings(shop: Path) -> list[Reading]:
    runs = project(shop).snapshot.all(Run)
    return [reading for run in runs for reading in run.readings]


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("180 kg", "is a mass"),
        ("12,5,5", "two decimal marks"),
        ("1/0", "divides by zero"),
        ("-178", "is negative"),
        ("17x8", "not a unit known here"),
        ("=180 ±", "accepted"),
    ],
)
async def test_a_refused_reading_stays_typed_and_nothing_is_written(
    shop: Path, typed: str, says: str
) -> None:
    before = sum(len(run.readings) for run in project(shop).snapshot.all(Run))
    async with bench(shop, (100, 30)) as at:
        await at.do("f3")
        await at.do("enter")
        assert isinstance(at.app.screen, Measure)
        await at.say(typed)
        assert says in " ".join(at.seen.split())
        assert at.line.value == typed
        assert at.line.has_focus
    assert sum(len(run.readings) for run in project(shop).snapshot.all(Run)) == before
