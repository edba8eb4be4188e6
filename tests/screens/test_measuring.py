"""A measuring run, key by key: places, repeats, questions, readings taken back."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Deviation, Run
from logbook.records.kinds.words import Blame
from logbook.records.kinds.workshop import Piece
from tests.screens.bench_keys import bench, measuring, project
from tests.screens.conftest import logged


async def test_a_first_run_makes_the_list_and_the_piece(shop: Path) -> None:
    async with bench(shop) as at:
        await measuring(at, "cam")
        await at.type("w 40.2")
        await at.press("enter")
        await at.say("bore 8.01 =8 +0.02 0")
        assert "w" in at.seen
        assert "8.01 mm" in at.seen
    snapshot = project(shop).snapshot
    [piece] = [p for p in snapshot.all(Piece) if p.title == "cam-1"]
    run = snapshot.all(Run)[-1]
    assert run.piece == piece.ref
    assert [(r.what.name, str(r.value)) for r in run.readings] == [
        ("w", "40.2 mm"),
        ("bore", "8.01 mm"),
    ]


async def test_a_later_run_walks_the_list_with_a_number_and_enter(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        assert "39.9 mm" in at.seen
        assert "40.1 mm" in at.seen
        await at.press(*"40", "full_stop", *"01", "enter", *"39", "full_stop", "9", "5")
        await at.pilot.pause()
        assert "WITHIN" in at.seen
        await at.do("enter")
    run = project(drawn).snapshot.all(Run)[-1]
    assert [(r.place, str(r.value)) for r in run.readings] == [
        ("left", "40.01 mm"),
        ("right", "39.95 mm"),
    ]


async def test_each_reading_is_on_disk_before_the_next(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.01")
        assert len(project(drawn).snapshot.all(Run)[-1].readings) == 1
        assert project(drawn).waiting() != ()
        await at.say("40.02")
        assert len(project(drawn).snapshot.all(Run)[-1].readings) == 2
        await at.do("escape")
        assert project(drawn).waiting() == ()


async def test_the_arrow_goes_back_and_a_repeat_is_added(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.01")
        await at.press("up")
        await at.say("40.03")
        assert "40.01 mm  40.03 mm" in at.seen
    run = project(drawn).snapshot.all(Run)[-1]
    assert [r.place for r in run.readings] == ["left", "left"]


async def test_a_new_place_and_a_state_can_be_typed(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.type("/clamped")
        await at.press("enter")
        await at.say("@middle 40.0")
        await at.say("n")
    run = project(drawn).snapshot.all(Run)[-1]
    first, second = run.readings
    assert (first.place, first.state, str(first.value)) == (
        "middle",
        "clamped",
        "40.0 mm",
    )
    assert str(second.value) == "not measured"


async def test_a_number_typed_while_a_question_stands_is_a_reading_and_no_answer(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.4")
        await at.press("f6")
        await at.say("41.01")
        await at.press("up")
        await at.say("40,001")
        assert "a 40.001" in at.seen
        await at.say("40.02")
    [_, deviation] = project(drawn).snapshot.all(Deviation)
    assert deviation.met_by_others is Blame.UNKNOWN
    assert str(deviation.found) == "40.4 mm"
    values = [str(one.value) for one in project(drawn).snapshot.all(Run)[-1].readings]
    assert values == ["40.4 mm", "41.01 mm", "40.02 mm"]


async def test_a_stray_key_changes_no_instrument_and_takes_no_number_away(
    calipered: Path,
) -> None:
    async with bench(calipered) as at:
        await measuring(at, "bar")
        await at.press("f7")
        await at.type("40.01")
        await at.press("enter")
        assert "no instrument is called so" in at.words
        await at.press("escape")
        await at.say("40.01")
    [reading] = project(calipered).snapshot.all(Run)[-1].readings
    assert reading.instrument is not None
    assert reading.instrument.name == "300 mm caliper"


async def test_what_was_never_drawn_takes_the_kind_it_was_read_in(shop: Path) -> None:
    logged(shop, "part", "gate")
    logged(shop, "measure", "gate", "face", "58 °C")
    async with bench(shop) as at:
        await measuring(at, "gate")
        await at.say("52 kg")
        assert "is a mass" in at.words
        assert "was read 58 °C before" in at.words
        assert at.line.value == "52 kg"


async def test_a_refused_line_is_not_what_the_key_takes_back(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.02")
        await at.say("52 kg")
        await at.do("f8")
        assert "“52 kg” was not taken, it stands only on the line" in at.words
        [reading] = project(drawn).snapshot.all(Run)[-1].readings
        assert str(reading.value) == "40.02 mm"
        await at.do("f8")
    assert len(project(drawn).snapshot.all(Run)) == 2


async def test_the_size_taken_back_is_the_one_typed_next(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.4")
        await at.do("f8")
        await at.say("40.1")
    [reading] = project(drawn).snapshot.all(Run)[-1].readings
    assert (reading.place, str(reading.value)) == ("left", "40.1 mm")


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("40.1.2", "two decimal marks"),
        ("40 N", "is a force"),
        ("-40.1", "is negative"),
        ("3/0 in", "divides by zero"),
        ("4o.1", "is not a unit known here"),
        ("w", "does not begin with a number"),
    ],
)
async def test_what_is_no_reading_is_refused_beside_the_line(
    drawn: Path, typed: str, sentence: str
) -> None:
    async with bench(drawn, (120, 40)) as at:
        await measuring(at, "bar")
        await at.type(typed)
        await at.press("enter")
        await at.pilot.pause()
        assert sentence in at.seen
        assert at.line.value == typed
        assert at.line.has_focus


async def test_undo_takes_the_last_reading_back(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.01")
        await at.say("40.09")
        await at.do("f8")
        assert "40.09 mm" not in at.seen.replace("measured bar-1: length 40.09 mm", "")
    run = project(drawn).snapshot.all(Run)[-1]
    assert [str(r.value) for r in run.readings] == ["40.01 mm"]


async def test_the_row_of_a_run_says_what_was_read(drawn: Path) -> None:
    async with bench(drawn, (100, 30)) as at:
        await measuring(at, "bar")
        await at.say("40.01")
        await at.say("39.95")
        await at.do("escape")
        rows = [row for row in at.seen.splitlines() if "measured bar" in row]
        assert any(": length 40.01 mm, 39.95 mm" in row for row in rows), rows
