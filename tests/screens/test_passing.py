"""The bench asks once before a line goes past what waits."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.cli import main
from logbook.records.kinds.happenings import Note, Override, StepDone
from logbook.records.kinds.words import OverrideReason
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged


@pytest.fixture
def lid(shop: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    for words in (
        ("part", "lid"),
        ("step", "put the cable in its channel", "--uses", "cable"),
        ("step", "close the lid", "--closes", "--inside", "cable", "--uses", "lid"),
    ):
        assert main([words[0], "--in", str(shop), *words[1:]]) == 0
    capsys.readouterr()
    return shop


async def test_done_all_the_same_is_logged_with_its_reason(lid: Path) -> None:
    async with bench(lid, (120, 40)) as at:
        await at.type("riveted the lid on")
        await at.press("enter")
        assert "“close the lid” waits: cable goes in first" in at.seen
        assert not project(lid).snapshot.all(StepDone)
        await at.press("1")
        assert "why?" in at.seen
        await at.press("2")
        assert "1 of 1 inside: cable – is it in?" in at.words
        await at.do("y")
        assert "step: close the lid" in at.seen
        assert at.line.value == ""
    snapshot = project(lid).snapshot
    assert [one.reason for one in snapshot.all(Override)] == [OverrideReason.CHECKED]
    assert [one.inside for one in snapshot.all(StepDone)] == [("cable",)]
    assert [one.title for one in snapshot.all(StepDone)] == ["riveted the lid on"]


@pytest.mark.parametrize("key", ["2", "enter"])
async def test_not_done_yet_logs_nothing_and_hands_the_line_back(
    lid: Path, key: str
) -> None:
    async with bench(lid) as at:
        await at.type("close the lid")
        await at.press("enter")
        await at.do(key)
        assert at.line.value == "close the lid"
        await at.type("s")
        assert at.line.value == "close the lids"
    snapshot = project(lid).snapshot
    assert not snapshot.all(Note)
    assert not snapshot.all(StepDone)
    assert not snapshot.all(Override)


async def test_what_was_said_before_stands_under_no_later_question(lid: Path) -> None:
    async with bench(lid, (120, 40)) as at:
        await at.say("riveted the lid on")
        await at.do("enter")
        assert "not done yet: the line stays" in at.words
        await at.do("enter")
        assert "waits: cable goes in first" in at.words
        assert "not done yet: the line stays" not in at.words
        await at.do("1")
        assert "why?" in at.words
        assert "not done yet: the line stays" not in at.words


async def test_why_is_answered_in_words_of_his_own(lid: Path) -> None:
    async with bench(lid) as at:
        await at.type("riveted the lid on")
        await at.press("enter", "1")
        assert "1 it can be opened again" in at.words
        assert "fitted by hand" not in at.words
        assert "little is lost" not in at.words
        await at.type("cable was laid at the fair")
        await at.do("enter", "n")
    [override] = project(lid).snapshot.all(Override)
    assert override.reason is OverrideReason.OTHER
    assert override.because == "cable was laid at the fair"


@pytest.mark.parametrize(
    ("typed", "reason", "because"),
    [
        ("1", OverrideReason.OTHER, "it can be opened again"),
        ("2", OverrideReason.CHECKED, ""),
        ("lid is a trial one", OverrideReason.OTHER, "lid is a trial one"),
    ],
)
async def test_going_on_past_a_wait_takes_a_figure_or_words(
    lid: Path, typed: str, reason: OverrideReason, because: str
) -> None:
    async with bench(lid) as at:
        await at.press("ctrl+g", "1")
        assert "why? │ why?" not in at.seen
        await at.type(typed)
        await at.do(*(["enter"] if not typed.isdecimal() else []))
        assert at.line.value == ""
    snapshot = project(lid).snapshot
    [override] = snapshot.all(Override)
    assert (override.reason, override.because) == (reason, because)
    assert not snapshot.all(Note)


async def test_a_letter_that_answers_nothing_leaves_the_question_standing(
    lid: Path,
) -> None:
    async with bench(lid) as at:
        await at.type("riveted the lid on")
        await at.do("enter", "x")
        assert "“x” does not answer this; accepted: 1, 2, Enter, Esc" in at.words
        assert at.line.value == "riveted the lid on"
        await at.do("1", "2", "y")
    assert project(lid).snapshot.all(StepDone)


async def test_a_question_shows_every_answer_on_a_low_screen(lid: Path) -> None:
    for name in ("hinge pin", "second cable", "felt pad", "grommet"):
        why = f"the {name} lies where the drawing of the channel shows it in red"
        logged(lid, "hold", "close the lid", f"{why}, and nobody has seen it yet")
    async with bench(lid) as at:
        await at.type("riveted the lid on")
        assert "Enter take it" in at.seen
        await at.press("enter")
        assert "1 it was done all the same" in at.words
        assert "2 not done yet" in at.words
        assert "Enter not done yet; the line stays" in at.words
        assert "take it" not in at.seen
        await at.press("escape")
        assert "Enter take it" in at.seen


async def test_escape_gives_the_line_back_and_writes_nothing(lid: Path) -> None:
    async with bench(lid) as at:
        await at.type("riveted the lid on")
        await at.press("enter")
        await at.do("escape")
        assert at.line.value == "riveted the lid on"
    assert not project(lid).snapshot.all(StepDone)


async def test_a_question_goes_once_its_wait_was_gone_past_by_the_other_key(
    lid: Path,
) -> None:
    async with bench(lid, (120, 40)) as at:
        await at.say("riveted the lid on")
        assert "not done yet; the line stays" in at.words
        await at.do("ctrl+g")
        await at.type("lid")
        await at.do("enter", "2")
        assert not at.line.asking
        assert at.line.value == "riveted the lid on"
        assert "Enter takes the line" in at.words
        assert not project(lid).snapshot.all(StepDone)
        await at.press("enter")
        assert "inside: cable – is it in?" in at.words
        await at.do("y")
    snapshot = project(lid).snapshot
    assert len(snapshot.all(Override)) == 1
    assert [one.title for one in snapshot.all(StepDone)] == ["riveted the lid on"]


async def test_a_question_of_a_wait_stays_while_other_things_are_logged(
    lid: Path,
) -> None:
    async with bench(lid, (120, 40)) as at:
        await at.say("riveted the lid on")
        logged(lid, "say", "--yes", "bed was oiled")
        await at.until(lambda: "bed was oiled" in at.seen)
        assert at.line.asking
        assert "not done yet; the line stays" in at.words
        await at.do("1", "2", "y")
    assert len(project(lid).snapshot.all(Override)) == 1


async def test_enter_alone_is_no_reason_at_the_key_that_goes_past(lid: Path) -> None:
    async with bench(lid) as at:
        await at.do("ctrl+g", "1", "enter")
        assert "no reason given, so nothing was gone past" in at.words
    assert not project(lid).snapshot.all(Override)


@pytest.mark.parametrize(
    ("hold", "offered", "other"),
    [
        ("gap", "it will be fitted by hand", "it can be opened again"),
        ("hold", "it does not hold any more", "it will be fitted by hand"),
    ],
)
async def test_the_reasons_offered_fit_what_is_gone_past(
    shop: Path, hold: str, offered: str, other: str
) -> None:
    logged(shop, "part", "bar", "--process", "sawing", "--dimension", "length=179.7")
    logged(shop, "part", "frame", "--process", "folding", "--dimension", "width=180")
    logged(shop, "step", "saw the bar", "--makes", "bar")
    if hold == "gap":
        logged(
            shop, "gap", "bar in the frame", "frame.width - bar.length",
            "--limits", "0.1 to 0.5", "--last", "bar.length",
        )  # fmt: skip
    else:
        logged(shop, "hold", "saw the bar", "the wide jaw is away")
    async with bench(shop) as at:
        await at.say("sawed the bar")
        await at.press("1")
        assert offered in at.words
        assert other not in at.words
        await at.do("1")
    assert len(project(shop).snapshot.all(StepDone)) == 1
