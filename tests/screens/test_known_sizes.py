"""The bench line and a typed-in sheet hold what is typed to the sizes on record."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Run
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged


@pytest.fixture
def bed(shop: Path) -> Path:
    logged(shop, "part", "bed", "--dimension", "width=240 ±0.5")
    return shop


async def test_another_kind_is_asked_about_and_the_line_stays(bed: Path) -> None:
    async with bench(bed) as at:
        await at.say("bed width 240.2 kg")
        assert "is a mass; width is drawn 240 mm" in at.words
        assert at.line.value == "bed width 240.2 kg"
        await at.press("escape")
        assert at.line.value == "bed width 240.2 kg"
    runs = project(bed).snapshot.all(Run)
    assert not any("bed" in run.title for run in runs)


async def test_a_wrong_unit_offers_no_value_and_what_is_typed_is_checked(
    bed: Path,
) -> None:
    async with bench(bed) as at:
        await at.say("bed width 52 kg")
        assert "52 mm" not in at.words
        await at.say("52 kg")
        assert "is a mass; width is drawn 240 mm" in at.words
        await at.say("2402")
        assert "ten times what is drawn, 240 mm" in at.words
        await at.do("m")
    [reading] = project(bed).snapshot.all(Run)[-1].readings
    assert str(reading.value) == "240.2 mm"


async def test_how_tight_its_screws_are_is_not_held_to_the_one_size_of_a_part(
    bed: Path,
) -> None:
    async with bench(bed) as at:
        await at.say("bolts torqued 1.2 N·m on the bed")
        assert "width is drawn" not in at.words
        await at.press("escape", "escape", "escape")
        await at.say("bed width 1.2 N·m")
        assert "is a torque; width is drawn 240 mm" in at.words


@pytest.mark.parametrize(
    ("answer", "value", "confirmed"),
    [("m", "240.2 mm", False), ("t", "2402 mm", True), ("240.3", "240.3 mm", False)],
)
async def test_a_slip_is_answered_by_a_letter_or_by_the_number(
    bed: Path, answer: str, value: str, confirmed: bool
) -> None:
    async with bench(bed) as at:
        await at.say("bed width 2402")
        assert "ten times what is drawn, 240 mm" in at.words
        await at.type(answer)
        if answer[:1].isdigit():
            await at.press("enter")
        await at.settle()
        if at.app.screen.query_one("#understood").has_class("-asks"):
            await at.do("enter")
    run = project(bed).snapshot.all(Run)[-1]
    [reading] = run.readings
    assert (str(reading.value), reading.confirmed) == (value, confirmed)
    assert run.title.startswith(f"bed width {value.removesuffix(' mm')}")


async def test_a_number_far_from_what_is_drawn_is_asked_about_on_the_line(
    bed: Path,
) -> None:
    async with bench(bed) as at:
        await at.say("bed width 52")
        assert "“52 mm” is far from what is drawn, 240 mm: is it so?" in at.words
        assert "m 52" not in at.words
        await at.do("t")
        if at.app.screen.query_one("#understood").has_class("-asks"):
            await at.do("enter")
    [reading] = project(bed).snapshot.all(Run)[-1].readings
    assert (str(reading.value), reading.confirmed) == ("52 mm", True)


async def test_who_says_what_it_should_be_knows_how_far_off_it_is(bed: Path) -> None:
    async with bench(bed) as at:
        await at.say("bed width 52 should be 240")
        assert "is far from" not in at.words
        assert "would another builder meet this?" in at.words


async def test_a_number_far_from_what_is_drawn_is_asked_about_in_a_run(
    bed: Path,
) -> None:
    async with bench(bed) as at:
        await at.do("f3")
        await at.say("bed")
        await at.say("52")
        assert "“52 mm” is far from what is drawn, 240 mm: is it so?" in at.words
        await at.press("enter")
        await at.say("240.2")
        await at.press("up")
        await at.say("52")
        await at.do("t")
    [run] = (one for one in project(bed).snapshot.all(Run) if "bed" in one.title)
    read = [(str(one.value), one.confirmed) for one in run.readings]
    assert read == [("240.2 mm", False), ("52 mm", True)]


async def test_what_a_thickness_means_for_its_screw_is_said_at_once(
    shop: Path,
) -> None:
    logged(shop, "part", "collar", "--dimension", "thickness=6.35 ±0.1")
    layers = ("--layer", "washer=0.8 mm", "--layer", "collar", "--layer", "base=2.0")
    nut = ("--nut", "thin self-locking", "--nut-height", "5.0 mm")
    logged(shop, "joint", "collar to base", "M4x20", *layers, *nut)
    async with bench(shop) as at:
        await at.say("collar thickness 1/4 in")
        await at.until(lambda: "beyond the nut" in at.words)
        assert "collar to base: M4x20 stands through" in at.words
        assert "at worst" not in at.words, "both ends cannot be the worst"
        await at.say("collar thickness 7 mm")
        assert "1 if it is what is sold" in at.words
        await at.press("1")
        await at.until(lambda: "7 mm ·" in at.words)


async def test_what_is_no_answer_to_a_slip_is_told_the_keys_that_are_shown(
    bed: Path,
) -> None:
    async with bench(bed, (100, 30)) as at:
        await at.say("bed width 2402")
        assert "m 240.2 mm t as typed" in at.words
        await at.say("y")
        assert "accepted: m, t, a number, or Enter" in at.words
