"""A reading in a run is judged by limits, instrument and general tolerance."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Deviation, Run
from logbook.records.kinds.words import Blame
from tests.screens.bench_keys import bench, measuring, project
from tests.screens.conftest import logged


async def test_off_drawing_leads_by_one_key_to_a_deviation_and_its_question(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.4")
        assert "off drawing" in at.seen
        await at.press("f6")
        await at.pilot.pause()
        assert "length 40.4 mm: would another builder meet this?" in at.words
        await at.do("d")
    deviation = project(drawn).snapshot.all(Deviation)[-1]
    assert deviation.met_by_others is Blame.DRAWING
    assert (str(deviation.wanted), str(deviation.found)) == ("40.0 mm", "40.4 mm")
    assert deviation.place == "left"


async def test_a_reading_is_logged_as_a_deviation_once(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.4")
        await at.press("f6", "d", "f6")
        assert "is logged already" in at.words
        assert "would another builder" not in at.words
        await at.settle()
        await at.press("f6")
        assert "is logged already" in at.words
    assert len(project(drawn).snapshot.all(Deviation)) == 2


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("401.2", "40.12 mm"), ("4.012", "40.12 mm"), ("0.4012", "40.12 mm"),
     ("1.578", "1.578 in"), ("43", ""), ("33", "")],
)  # fmt: skip
async def test_a_slip_is_asked_about_before_it_is_taken(
    drawn: Path, typed: str, meant: str
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say(typed)
        assert ("as typed" in at.words) == bool(meant)
        assert meant in at.words
        taken = len(project(drawn).snapshot.all(Run)[-1].readings)
        if meant:
            await at.do("m")
    [reading] = project(drawn).snapshot.all(Run)[-1].readings
    assert str(reading.value) == (meant or f"{typed} mm")
    assert not reading.confirmed
    assert taken == 1  # an earlier run's, while the question stands


async def test_a_slip_said_to_be_so_is_kept_so_and_not_asked_again(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("401.2")
        await at.do("t")
        await at.say("401.5")
        assert "as typed" not in at.words
    first, second = project(drawn).snapshot.all(Run)[-1].readings
    assert (str(first.value), first.confirmed) == ("401.2 mm", True)
    assert (second.place, str(second.value)) == ("right", "401.5 mm")


async def test_the_next_number_typed_takes_the_place_of_a_slip(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("401.2")
        await at.say("40.12")
    [reading] = project(drawn).snapshot.all(Run)[-1].readings
    assert (reading.place, str(reading.value)) == ("left", "40.12 mm")


async def test_the_instrument_is_seen_beside_a_place_and_says_when_it_changes(
    calipered: Path,
) -> None:
    async with bench(calipered) as at:
        await measuring(at, "bar")
        await at.type("40.4")
        assert "OFF DRAWING" in at.seen
        assert "at left" in at.seen
        assert "measuring bar-1 · 300 mm caliper" in at.seen
        await at.press("f7", "down", "enter")
        assert "measuring bar-1 · no instrument" in at.seen
        await at.press("f7")
        assert "in hand" in at.seen
        await at.type("cal")
        assert "±0.04 mm" in at.seen
        await at.press("enter")
        assert "measuring bar-1 · 300 mm caliper" in at.seen
        assert "300 mm caliper, ±0.04 mm" in at.words
        assert at.line.value == "40.4"


async def test_a_reading_near_a_limit_is_judged_by_its_instrument(drawn: Path) -> None:
    logged(drawn, "instrument", "caliper", "--uncertainty", "0.04 mm")
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.08")
        assert "too close to call" not in at.seen
        await at.press("f7", "down", "enter")
        assert "caliper, ±0.04 mm" in at.seen
        await at.say("40.08")
        assert "too close to call" in at.seen
    readings = project(drawn).snapshot.all(Run)[-1].readings
    assert [r.instrument.name if r.instrument else "" for r in readings] == [
        "",
        "caliper",
    ]


async def test_the_instrument_in_hand_stays_and_reads_only_its_own_kind(
    drawn: Path,
) -> None:
    logged(drawn, "instrument", "caliper", "--uncertainty", "0.04 mm")
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.press("f7", "down", "enter")
        await at.say("40.0")
        await at.press("escape")
        await measuring(at, "bar")
        await at.say("face 58 °C")
        await at.say("w 12.0")
    readings = project(drawn).snapshot.all(Run)[-1].readings
    assert [r.instrument.name if r.instrument else "" for r in readings] == [
        "",
        "caliper",
    ]


async def test_what_the_general_tolerance_holds_is_judged_and_said_to_be_by_it(
    shop: Path,
) -> None:
    logged(shop, "project", "--tolerance", "ISO 2768-c")
    logged(shop, "part", "bed", "--dimension", "width=240")
    logged(shop, "instrument", "caliper", "--uncertainty", "0.1 mm")
    async with bench(shop) as at:
        await measuring(at, "bed")
        await at.press("f7", "down", "enter")
        for typed, said in (
            ("240.5", "WITHIN"),
            ("241.15", "TOO CLOSE"),
            ("242", "OFF"),
        ):
            await at.type(typed)
            wanted = f" {said} "
            await at.until(lambda wanted=wanted: wanted in at.seen)  # type: ignore[misc]
            assert "238.8 mm" in at.seen
            assert "241.2 mm by ISO 2768-c" in at.seen
            for _ in typed:
                await at.press("backspace")
        await at.type("240.5")
        await at.press("enter")
        assert "is off drawing" not in at.seen
        await at.type("width 242")
        await at.press("enter")
        assert "is off drawing: F6 logs it" in " ".join(at.seen.split())
        await at.do("f6", "p")
    made = project(shop).snapshot.all(Deviation)[-1]
    assert (str(made.wanted), str(made.found)) == ("240 mm", "242 mm")


async def test_a_place_read_again_says_which_deviation_stands_there_undecided(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.4")
        await at.do("f6", "p")
        await at.press("up")
        await at.say("40.05")
        assert "the deviation 40.4 mm at left stands, undecided" in at.words
        await at.say("40.02")
        assert "stands, undecided" not in at.words, "that is another place"
        await at.press("escape")
        await at.say("use bar-1 as is")
        await measuring(at, "bar-1")
        await at.say("40.06")
        assert "stands, undecided" not in at.words, "it was decided on"
