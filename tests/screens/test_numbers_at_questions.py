"""A number that is typed at once, as a caliper types it, answers no question."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.events import Key

from logbook.records.kinds.happenings import Failure, Run
from logbook.records.kinds.words import Blame
from logbook.records.kinds.workshop import Build
from logbook.screens.run.measure import Measure
from tests.screens.bench_keys import Bench, bench, measuring, project
from tests.screens.conftest import draw_limits, logged

CRACKED = "bed cracked at the rim"


@pytest.fixture
def bar(shop: Path) -> Path:
    """A bar with limits on its length, at two places."""
    logged(shop, "part", "bar", "--dimension", "length=40.0")
    draw_limits(shop)
    return shop


async def caliper(at: Bench, number: str) -> None:
    """Type a number and Enter, one key right behind the other."""
    for sign in number[:-1]:
        at.app.post_message(Key({".": "full_stop"}.get(sign, sign), sign))
    at.app.post_message(Key(number[-1], number[-1]))
    at.app.post_message(Key("enter", "\r"))
    await at.settle()


async def test_a_number_leaves_open_whose_fault_it_is_and_is_the_next_line(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.say(CRACKED)
        assert "would another builder meet this?" in at.words
        await at.type("178.61")
        await at.settle()
        assert at.line.value == "178.61"
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.met_by_others is Blame.UNKNOWN


async def test_a_figure_alone_still_answers(shop: Path) -> None:
    async with bench(shop) as at:
        await at.say(CRACKED)
        await at.do("1")
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.met_by_others is Blame.DRAWING


async def test_a_number_begins_no_build_and_the_question_stays(shop: Path) -> None:
    async with bench(shop) as at:
        await at.say("start build 2")
        assert "begin build 2?" in at.words
        await caliper(at, "178.61")
        assert "“178.61” does not answer this" in at.words
        assert "begin build 2?" in at.words
        assert len(project(shop).snapshot.all(Build)) == 1
        await at.do("1")
    assert len(project(shop).snapshot.all(Build)) == 2


def readings(shop: Path) -> list[tuple[str, str]]:
    """Give place and value of what the run that was taken last has."""
    run = project(shop).snapshot.all(Run)[-1]
    return [(one.place, str(one.value)) for one in run.readings]


async def burst(at: Bench, signs: str) -> None:
    """Type numbers one right behind the other, as no hand can read on between."""
    for sign in signs:
        key = {".": "full_stop", "\r": "enter"}.get(sign, sign)
        at.app.post_message(Key(key, sign))
    await at.settle()


async def test_where_a_number_behind_a_doubted_one_belongs_is_asked(bar: Path) -> None:
    async with bench(bar, (100, 30)) as at:
        await measuring(at, "bar")
        await burst(at, "400\r40.02\r40.03\r")
        assert not runs_of(bar, "bar")
        assert "40.02 mm: read again at left, or is it of right?" in at.words
        await at.do("a")
        assert readings(bar) == [("left", "40.02 mm")]
        assert at.line.value == "40.03"
        await at.do("enter")
    assert readings(bar) == [("left", "40.02 mm"), ("right", "40.03 mm")]


async def test_a_number_of_the_next_place_leaves_the_doubted_one_open(
    bar: Path,
) -> None:
    async with bench(bar, (100, 30)) as at:
        await measuring(at, "bar")
        await burst(at, "400\r40.02\r")
        await at.do("n")
        assert readings(bar) == [("right", "40.02 mm")]
        assert "400 not taken" in at.words
        await at.press("up", "up")
        await at.say("40.01")
        assert "400 not taken; 40.01 mm stands at left" in at.words
        await at.settle()
    assert ("left", "40.01 mm") in readings(bar)


async def test_a_number_that_is_what_was_meant_was_read_again(bar: Path) -> None:
    async with bench(bar, (100, 30)) as at:
        await measuring(at, "bar")
        await burst(at, "4.002\r40.02\r40.03\r")
    assert readings(bar) == [("left", "40.02 mm"), ("right", "40.03 mm")]


async def test_a_second_slip_over_the_question_of_a_first_is_asked_its_place_too(
    bar: Path,
) -> None:
    async with bench(bar, (100, 30)) as at:
        await measuring(at, "bar")
        await burst(at, "4.001\r4.002\r")
        await at.do("m")
        assert "40.02 mm: read again at left, or is it of right?" in at.words
        await at.do("n")
        assert "4.001 not taken" in at.words, "the first is as open as before"
        await at.settle()
    assert readings(bar) == [("right", "40.02 mm")]


async def test_of_slips_typed_over_each_other_none_is_lost(bar: Path) -> None:
    async with bench(bar, (100, 30)) as at:
        await measuring(at, "bar")
        await burst(at, "4.001\r4.002\r4.003\r")
        await at.do("escape")
        assert "4.001, 4.002 not taken" in at.words


async def test_the_question_of_its_place_can_be_put_off(bar: Path) -> None:
    async with bench(bar, (100, 30)) as at:
        await measuring(at, "bar")
        await burst(at, "400\r40.02\r")
        await at.do("enter")
        assert at.line.value == "40.02"
        assert not runs_of(bar, "bar")
        await at.do("enter")
        assert "read again at left" in at.words
        await at.do("escape", "down", "enter")
    assert readings(bar) == [("right", "40.02 mm")]


async def test_in_a_batch_the_pace_moves_no_reading_to_another_piece(
    shop: Path,
) -> None:
    logged(shop, "part", "strip", "--dimension", "length=29.3")
    async with bench(shop, (100, 30)) as at:
        await at.press("f5")
        await at.type("strip 4")
        await at.press("enter")
        await burst(at, "29.31\r29.30\r2.928\r29.27\r29.33\r")
        assert "29.27 mm: read again at strip-3, or is it of strip-4?" in at.words
        await at.do("a")
        await at.do("enter")
    assert pieces_read(shop) == ["29.31 mm", "29.30 mm", "29.27 mm", "29.33 mm"]


async def test_what_was_not_taken_is_told_before_the_run_is_left(shop: Path) -> None:
    logged(shop, "part", "strip", "--dimension", "length=29.3")
    async with bench(shop, (100, 30)) as at:
        await at.press("f5")
        await at.type("strip 3")
        await at.press("enter")
        await burst(at, "29.31\r2.928\r29.27\r")
        await at.do("n")
        await at.do("escape")
        assert "strip-2: 2.928 not taken, nothing is on record there" in at.words
        await at.do("escape")
        assert not isinstance(at.app.screen, Measure)
    assert pieces_read(shop) == ["29.31 mm", "29.27 mm"]


def runs_of(shop: Path, part: str) -> list[Run]:
    """Give the runs on pieces of a part, by the piece."""
    runs = project(shop).snapshot.all(Run)
    found = [run for run in runs if run.piece and run.piece.name.startswith(part)]
    return sorted(found, key=lambda run: run.title)


def pieces_read(shop: Path) -> list[str]:
    """Give what each strip read, by its number."""
    return [str(one.value) for run in runs_of(shop, "strip") for one in run.readings]


async def test_a_number_typed_anew_at_the_question_says_what_it_replaces(
    bar: Path,
) -> None:
    async with bench(bar, (100, 30)) as at:
        await measuring(at, "bar")
        await at.say("400")
        assert "40.0 mm was meant" in at.words
        await at.say("40.02")
        await at.do("a")
        assert "400 not taken; 40.02 mm stands at left" in at.words
        await at.say("40.03")
        assert "400 not taken" in at.words
    assert readings(bar) == [("left", "40.02 mm"), ("right", "40.03 mm")]


async def test_a_slip_put_right_leads_on_to_what_is_not_read_yet(bar: Path) -> None:
    async with bench(bar, (100, 30)) as at:
        await measuring(at, "bar")
        await burst(at, "400\r40.02\r")
        await at.do("n")
        await at.press("up", "up")
        await at.say("40.9")
        assert "F6 logs it" in at.words
        await at.say("40.03")
        assert "names no size yet" in at.words, "both places are read"
        await at.press("ctrl+u")
        await at.do("f6")
        assert "40.9 mm: would another builder meet this?" in at.words
    assert readings(bar) == [("right", "40.02 mm"), ("left", "40.9 mm")]
