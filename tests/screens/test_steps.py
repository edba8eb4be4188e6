"""The order of work on screen: cautions first, ticks by name, and going past a wait."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import Override, StepDone
from logbook.records.kinds.words import OverrideReason
from logbook.screens.steps.steps import Steps
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged
from tests.screens.test_look import HOSTILE, SIZES


@pytest.fixture
def ordered(shop: Path) -> Path:
    logged(
        shop, "step", "fold the base", "--makes", "base", "--process", "bending",
        "--tool", "folder", "--instead", "bars in a vice",
    )  # fmt: skip
    logged(
        shop, "step", "screw the lid on", "--closes", "--inside", "cable",
        "--inside", "lamp", "--tested", "the lamp lights", "--clean", "the window",
    )  # fmt: skip
    logged(shop, "step", "glue the foot", "--process", "gluing")
    logged(shop, "hold", "glue the foot", "the glue is not here")
    logged(shop, "step", "oil the hinge")
    logged(shop, "hold", "oil the hinge", "no oil on the bed", "--grade", "check")
    return shop


def done(folder: Path) -> list[StepDone]:
    return list(project(folder).snapshot.all(StepDone))


async def test_a_step_shows_its_cautions_before_anything_else(ordered: Path) -> None:
    logged(ordered, "part", "base", "--material", "aluminium sheet")
    async with bench(ordered, (120, 40)) as at:
        await at.do("ctrl+n")
        seen = at.seen
        assert "CAUTION" in seen
        assert seen.index("CAUTION") < seen.index("bars in a vice")
        assert "or instead" in seen
        await at.say("75 min")
        assert "done" in at.seen
    [entry] = done(ordered)
    assert (entry.title, str(entry.time)) == ("fold the base", "75 min")
    assert entry.part is not None
    assert entry.build is not None


async def test_what_a_step_closes_over_is_ticked_one_by_one(ordered: Path) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+n")
        await at.press("down")
        assert "Enter asks for each of these; y ticks it" in at.words
        await at.do("enter")
        for asked in (
            "1 of 4  inside: cable", "2 of 4  inside: lamp",
            "3 of 4  tested: the lamp lights", "4 of 4  clean: the window",
        ):  # fmt: skip
            assert asked in at.seen
            assert not done(ordered)
            await at.do("y")
    [entry] = done(ordered)
    assert entry.closes
    assert entry.inside == ("cable", "lamp")
    assert entry.tested == ("the lamp lights",)
    assert entry.clean == ("the window",)


@pytest.mark.parametrize("key", ["enter", "n"])
async def test_what_is_not_ticked_is_asked_about_and_not_logged(
    ordered: Path, key: str
) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+n")
        await at.do("down", "enter")
        await at.press("y", key, "y", "y")
        assert "not ticked: inside: lamp" in at.words
        await at.do("enter")
        assert "“screw the lid on”: not done yet" in at.words
        assert at.line.has_focus
    assert not done(ordered)


async def test_a_tick_that_is_dropped_logs_nothing(ordered: Path) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+n")
        await at.do("down", "enter", "y", "escape")
        assert "not done yet" in at.words
        assert "1 of 4" not in at.words
    assert not done(ordered)


async def test_not_ticked_and_done_all_the_same_it_is_logged_with_its_reason(
    ordered: Path,
) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+n")
        await at.press("down", "enter", "y", "n", "y", "y", "1")
        assert "1 it can be opened again" in at.words
        await at.do("1")
    [entry] = done(ordered)
    assert entry.inside == ("cable",)
    [over] = project(ordered).snapshot.all(Override)
    assert over.because == "it can be opened again"


async def test_what_was_ticked_is_shown_so_at_the_next_question(ordered: Path) -> None:
    async with bench(ordered, (120, 40)) as at:
        await at.do("ctrl+n")
        await at.do("down", "enter", "y", "n")
        assert "■ inside: cable – is it in? yes" in at.words
        assert "□ inside: lamp – is it in? no" in at.words
        assert "□ tested: the lamp lights – was it tried? " in at.words
        await at.press("escape")
        assert "■" not in at.words


async def test_a_step_that_waits_says_what_enter_does_there(shop: Path) -> None:
    logged(shop, "step", "put the cable in", "--uses", "cable")
    logged(shop, "step", "close the lid", "--closes", "--inside", "cable")
    async with bench(shop) as at:
        await at.do("ctrl+n")
        await at.say("2")
        said = "step 2; it waits; Enter asks whether it was done all the same"
        assert said in at.words
        assert "Enter asks for each of these" not in at.words
        await at.press("enter")
        assert "“put the cable in” is not done" in at.words
        await at.do("y", "y", "enter")
    assert not done(shop)


async def test_a_wait_is_gone_past_only_with_its_reason(ordered: Path) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+n")
        await at.do("down", "down", "enter")
        assert "1 it was done all the same" in at.words
        assert not done(ordered)
        await at.do("ctrl+g")
        await at.do("1", "2")
        assert "gone past" in at.seen
        await at.do("enter")
    found = project(ordered).snapshot
    assert [over.reason for over in found.all(Override)] == [OverrideReason.CHECKED]
    assert [entry.title for entry in done(ordered)] == ["glue the foot"]


async def test_a_step_that_waits_is_done_all_the_same_with_its_reason(
    ordered: Path,
) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+n")
        await at.do("down", "down", "enter", "1", "2")
    found = project(ordered).snapshot
    assert [over.reason for over in found.all(Override)] == [OverrideReason.CHECKED]
    assert [entry.title for entry in done(ordered)] == ["glue the foot"]


async def test_a_declared_check_is_asked_before_the_step(ordered: Path) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+n")
        await at.do("down", "down", "down", "enter")
        assert "no oil on the bed – is it so?" in at.seen
        await at.do("y")
    assert [entry.title for entry in done(ordered)] == ["oil the hinge"]


async def test_a_done_step_is_taken_apart_and_the_last_act_undone(
    ordered: Path,
) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+n")
        await at.do("enter")
        await at.do("enter")
        assert "F6 says that it was taken apart" in at.seen
        await at.do("f6")
        assert "taken apart again" in at.words
        assert sorted(entry.undone for entry in done(ordered)) == [False, True]
        await at.do("escape")
        assert at.seen.count("│ taken apart ") == 1, "its row says it, once"
        await at.do("ctrl+n")
        await at.do("f8")
        assert [entry.undone for entry in done(ordered)] == [False]


@pytest.mark.parametrize("typed", ["soon", "3 mm", "-5 min"])
async def test_what_is_no_time_is_refused_beside_the_line(
    ordered: Path, typed: str
) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+n")
        await at.say(typed)
        assert "accepted: " in at.seen
        assert at.line.value == typed
        assert at.line.has_focus
    assert not done(ordered)


async def test_a_gap_that_waits_stands_at_the_step_that_makes_its_last_piece(
    ordered: Path,
) -> None:
    logged(
        ordered, "part", "crossbar", "--process", "sawing",
        "--dimension", "length=179.7 ±0.1",
    )  # fmt: skip
    logged(ordered, "part", "frame", "--process", "folding", "--dimension", "width=180")
    logged(
        ordered, "gap", "bar in the frame", "frame.width - crossbar.length",
        "--limits", "0.1 to 0.5", "--last", "crossbar.length",
    )  # fmt: skip
    logged(ordered, "step", "saw the bar", "--makes", "crossbar", "--number", "1")
    async with bench(ordered, (118, 40)) as at:
        await at.do("ctrl+n")
        assert "waits until frame width is measured" in at.seen


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_steps_are_to_be_read_at_every_size(
    ordered: Path, size: tuple[int, int]
) -> None:
    async with bench(ordered, size) as at:
        await at.do("ctrl+n")
        for words in ("fold the base", "Enter it is done", "F6 taken apart", "F8 undo"):
            assert words in at.seen
        await at.do("down", "enter")
        assert "1 of 4  inside: cable" in at.seen
        for width, height in SIZES:
            await at.pilot.resize_terminal(width, height)
            await at.settle()
            assert "1 of 4  inside: cable" in at.seen


@pytest.mark.parametrize("words", HOSTILE)
async def test_hostile_steps_are_shown_and_ticked_as_written(
    shop: Path, words: str
) -> None:
    logged(shop, "step", words, "--closes", "--inside", words, "--tool", words)
    async with bench(shop, (120, 40)) as at:
        await at.do("ctrl+n")
        assert at.seen.count(words) >= 3
        await at.do("enter")
        await at.do("y")
    [entry] = done(shop)
    [step] = project(shop).snapshot.all(Step)
    assert entry.inside == step.inside


async def test_a_piece_scrapped_at_the_bench_is_to_be_made_again(shop: Path) -> None:
    earlier = ("--when", "2024-03-07T11:00")
    logged(shop, "part", "crossbar", *earlier)
    logged(shop, "step", "saw the crossbar", "--makes", "crossbar", *earlier)
    logged(shop, "piece", "crossbar", *earlier)
    logged(shop, "step", "saw the crossbar", "--done", *earlier)
    async with bench(shop) as at:
        await at.say("scrap crossbar-1")
        assert "make again: crossbar-1 scrapped" in at.seen
        await at.do("ctrl+n")
        assert "make again" in at.seen
        assert "crossbar-1 scrapped" in at.seen
        await at.do("enter")
        assert "make again" not in at.seen
    assert len(done(shop)) == 2


async def test_a_bare_figure_goes_to_a_step_and_is_no_time(ordered: Path) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+n")
        await at.say("2")
        assert "step 2; Enter asks for what is to be seen first" in at.words
        sheet = at.app.screen
        assert isinstance(sheet, Steps)
        assert sheet.step is not None
        assert sheet.step.number == 2
        await at.do("down")
        assert "step 2; Enter" not in at.words
        await at.press("up")
        await at.say("77")
        assert "there is no step 77" in at.words
        assert at.line.value == "77"
    assert not done(ordered)


async def test_a_number_with_a_time_behind_it_is_a_step_and_its_time(
    ordered: Path,
) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+n", "down")
        await at.say("1 25 min")
        assert "step 1, 25 min; Enter logs it as done" in at.words
        assert at.line.value == "25 min"
        assert not done(ordered)
        await at.do("enter")
        assert "not taken" not in at.words
    [logged_step] = done(ordered)
    assert (logged_step.title, str(logged_step.time)) == ("fold the base", "25 min")


async def test_a_mixed_number_is_one_time_and_no_step(ordered: Path) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+n")
        await at.say("2 1/2 h")
    [logged_step] = done(ordered)
    assert (logged_step.title, str(logged_step.time)) == ("fold the base", "2 1/2 h")


async def test_a_step_done_once_more_on_purpose_is_logged_twice(ordered: Path) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+n")
        await at.do("enter")
        await at.press("enter")
        assert "“fold the base” is done" in at.words
        await at.do("enter")
        assert len(done(ordered)) == 1
        await at.do("enter", "1")
    assert [entry.title for entry in done(ordered)] == ["fold the base"] * 2


async def test_of_two_steps_with_one_number_both_are_gone_to(shop: Path) -> None:
    """As when two clones each put one in."""
    for title, number in (("oil the hinge", "3"), ("wax the bed", "4")):
        logged(shop, "step", title, "--number", number)
    [file] = (shop / "as-built/steps").rglob("*wax-the-bed.md")
    file.write_text(
        file.read_text("utf-8").replace("number = 4", "number = 3"), "utf-8"
    )
    logged(shop, "step", "saw the bar", "--number", "1")
    async with bench(shop) as at:
        await at.do("ctrl+n")
        sheet = at.app.screen
        assert isinstance(sheet, Steps)
        gone_to = []
        for _ in range(3):
            await at.say("3")
            assert sheet.step is not None
            gone_to.append(sheet.step.title)
    assert gone_to == ["oil the hinge", "wax the bed", "oil the hinge"]


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_every_answer_to_a_step_that_waits_is_to_be_seen(
    shop: Path, size: tuple[int, int]
) -> None:
    logged(shop, "step", "put the cable in its channel", "--uses", "cable")
    logged(shop, "step", "screw the lid on", "--closes", "--inside", "cable",
           "--tested", "the lamp lights")  # fmt: skip
    async with bench(shop, size) as at:
        await at.do("ctrl+n")
        await at.do("down", "enter")
        assert "1 it was done all the same" in at.words
        assert "2 not done yet" in at.words
        assert "took ›" in at.seen
        assert "Esc drop the question" in at.seen
        await at.do("1")
        assert "2 it was checked already" in at.words
        assert "or type it" in at.words


async def test_a_reason_typed_before_a_row_is_chosen_is_the_reason(
    ordered: Path,
) -> None:
    async with bench(ordered) as at:
        await at.do("ctrl+g")
        await at.type("the glue came this morning")
        assert "glue the foot" in at.words, "the list is not narrowed away"
        await at.do("enter")
        assert "why?" in at.words
        assert "the glue came this morning" in at.words
        await at.do("enter")
    reasons = [one.because for one in project(ordered).snapshot.all(Override)]
    assert reasons == ["the glue came this morning"]


async def test_what_is_set_for_a_step_is_shown_at_it(ordered: Path) -> None:
    logged(ordered, "step", "fold the base", "--set", "bend radius 2 mm")
    async with bench(ordered, (120, 40)) as at:
        await at.do("ctrl+n")
        assert "bend radius 2 mm" in at.words, at.words
