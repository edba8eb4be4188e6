"""A number that is typed at once, as a caliper types it, answers no question."""

from __future__ import annotations

from pathlib import Path

from textual.events import Key

from logbook.records.happenings import Failure
from logbook.records.words import Blame
from logbook.records.workshop import Build
from tests.screens.bench_keys import Bench, bench, project

CRACKED = "bed cracked at the rim"


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
        await at.press("1")
        await at.settle()
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
        await at.press("1")
        await at.settle()
    assert len(project(shop).snapshot.all(Build)) == 2
