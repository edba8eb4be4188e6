"""A number that is typed at once, as a caliper types it, answers no question."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.events import Key

from logbook.records.kinds.happenings import Failure, Run
from logbook.records.kinds.words import Blame
from logbook.records.kinds.workshop import Build
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
        assert "“178.61” is no answer" in at.words
        assert "begin build 2?" in at.words
        assert len(project(shop).snapshot.all(Build)) == 1
        await at.do("1")
    assert len(project(shop).snapshot.all(Build)) == 2


def readings(shop: Path) -> list[tuple[str, str]]:
    """Give place and value of what the run that was taken last has."""
    run = project(shop).snapshot.all(Run)[-1]
    return [(one.place, str(one.value)) for one in run.readings]


async def test_numbers_behind_a_doubted_one_keep_their_places(bar: Path) -> None:
    async with bench(bar, (100, 30)) as at:
        await measuring(at, "bar")
        for sign in "400\r40.02\r":
            key = {".": "full_stop", "\r": "enter"}.get(sign, sign)
            at.app.post_message(Key(key, sign))
        await at.settle()
        assert readings(bar) == [("right", "40.02 mm")]
        assert "400 not taken" in at.words
        assert at.app.screen.question is None  # type: ignore[attr-defined]
        await at.press("up", "up")
        await at.say("40.01")
        assert "400 not taken; 40.01 mm stands at left" in at.words
        await at.settle()
    assert ("left", "40.01 mm") in readings(bar)


async def test_a_number_typed_anew_at_the_question_says_what_it_replaces(
    bar: Path,
) -> None:
    async with bench(bar, (100, 30)) as at:
        await measuring(at, "bar")
        await at.say("400")
        assert "40.0 mm was meant" in at.words
        await at.say("40.02")
        assert "400 not taken; 40.02 mm stands at left" in at.words
        await at.say("40.03")
        assert "400 not taken" in at.words
    assert readings(bar) == [("left", "40.02 mm"), ("right", "40.03 mm")]


async def test_a_slip_put_right_leads_on_to_what_is_not_read_yet(bar: Path) -> None:
    async with bench(bar, (100, 30)) as at:
        await measuring(at, "bar")
        for sign in "400\r40.02\r":
            key = {".": "full_stop", "\r": "enter"}.get(sign, sign)
            at.app.post_message(Key(key, sign))
        await at.settle()
        await at.press("up", "up")
        await at.say("40.9")
        assert "F6 logs it" in at.words
        await at.say("40.03")
        assert "names no size yet" in at.words, "both places are read"
        await at.press("ctrl+u")
        await at.do("f6")
        assert "40.9 mm: would another builder meet this?" in at.words
    assert readings(bar) == [("right", "40.02 mm"), ("left", "40.9 mm")]
