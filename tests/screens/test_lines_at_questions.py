"""Whatever is typed at an open question is a valid answer, or still there as typed."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual.events import Key, Paste

from logbook.advice.steps.passing import REASONS, WaitSort
from logbook.plain.answers.accepted import unfit
from logbook.plain.understanding import Doubt
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.happenings import Failure, Note, StepDone
from logbook.records.kinds.words import Blame
from logbook.screens.record.record import RecordSheet
from logbook.screens.ruled.asking import (
    Question,
    about_line,
    whose_fault,
    whose_fault_of,
)
from logbook.screens.ruled.asking_past import about_waits, why_past
from logbook.store.typed.drafts import drafts
from tests.plain.judge import NOW
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged
from tests.screens.on_disk import kept, orphaned

WORDS = Vocabulary(NOW, parts={"base": (), "crossbar": ()})
SANDED = "sanded the rails smooth, took 10 minutes"
UNSURE = "base opening 1,234"
DOUBTS = (
    Doubt("part", "which part?", ("base", "no part")),
    Doubt("kind", "is 3 mm a measured value?", ("measured", "only a note")),
    Doubt("value", "“1,234” can be two numbers: which?", ("1.234", "1234")),
    Doubt("unit", "3: in which unit?"),
    Doubt("hour", "“at four”: at which hour?", ("4:00", "16:00")),
    Doubt("what", "3: what was measured, on which part?", ("base",)),
    Doubt("slip", "“400 mm” was read: is it 40 mm?", ("40 mm", "as typed")),
    Doubt("fastener", "which one was fitted?", ("M3", "M4")),
)
OPEN_ONES = [about_line(one, WORDS) for one in DOUBTS]
WHY = REASONS[WaitSort.GAP]
OPEN_ONES += [
    whose_fault(), about_waits(["wait"]), why_past(WHY), whose_fault_of("x 3")
]  # fmt: skip


def typed_at(question: Question, text: str) -> tuple[str | None, str, str]:
    """Type a text and Enter: give the answer, what waits, and what the line takes on.

    Once the question is gone what is typed goes to the line.
    """
    for at, sign in enumerate(text):
        behind = text[at + 1 : at + 2] or "\r"
        said = question.press(sign, sign, behind)
        if said.words is not None:
            return said.words, "", said.typed_on + text[at + 1 :]
    said = question.press("enter", "", "")
    return said.words, said.waits, ""


@given(
    st.integers(0, len(OPEN_ONES) - 1),
    st.text(st.characters(categories=("L", "N", "P", "Zs")), min_size=2, max_size=60),
)
def test_what_is_typed_is_an_answer_or_stays_word_for_word(at: int, text: str) -> None:
    if at < len(DOUBTS):
        question = about_line(DOUBTS[at], WORDS)
    else:
        question = [
            whose_fault(), about_waits(["wait"]), why_past(WHY), whose_fault_of("x 3")
        ][at - len(DOUBTS)]  # fmt: skip
    answer, waits, goes_on = typed_at(question, text)
    if waits:
        assert answer is None
        assert waits == text.strip()
    elif goes_on:
        begun = text[: len(text) - len(goes_on)]
        # A key of the question, or one stray sign before it.
        assert len(begun) <= 2
    elif answer and at < len(DOUBTS):
        assert unfit(DOUBTS[at], answer, WORDS) == ""
    else:
        assert answer is not None or len(text.strip()) < 2


@pytest.mark.parametrize("doubt", DOUBTS, ids=lambda one: one.about)
@pytest.mark.parametrize(
    "line",
    [
        SANDED,
        "glued the rubber sole to the foot, held 10 minutes",
        "base opening is still narrow",
        "diffuser cracked at the corner screw",
    ],
)
def test_a_line_is_no_answer_to_any_doubt(doubt: Doubt, line: str) -> None:
    assert unfit(doubt, line, WORDS)


@pytest.mark.parametrize(
    ("about", "answer"),
    [
        ("part", "threaded insert"), ("part", "upper left drive bracket"),
        ("part", "crossbar"), ("what", "length of the bar"), ("unit", "mm"),
        ("hour", "16:30"), ("value", "1234 mm"), ("slip", "40.02"),
        ("kind", "m"), ("kind", "1"), ("fastener", "M2.5"), ("size", "face width"),
        ("when", "yesterday 16:00"), ("kind", "only a note"),
    ],
)  # fmt: skip
def test_what_can_be_meant_is_an_answer(about: str, answer: str) -> None:
    doubt = Doubt(about, "which?", ("measured", "only a note"))
    assert unfit(doubt, answer, WORDS) == ""


@pytest.mark.parametrize("answer", ["7", "1 2", "painted it", "part, or other?", "x"])
def test_what_names_nothing_is_no_part(answer: str) -> None:
    assert unfit(Doubt("part", "which part?", ("base",)), answer, WORDS)


def test_n_takes_nothing_and_begins_no_answer() -> None:
    for choices in (("base", "no part"), ("not known yet",), ("next one", "nut")):
        doubt = Doubt("part", "which part?", choices)
        assert not unfit(doubt, "nut", WORDS)
        assert unfit(doubt, "n", WORDS)


async def test_n_at_the_question_which_part_makes_no_note(shop: Path) -> None:
    of_none = "bent cold over a block"
    async with bench(shop, (100, 30)) as at:
        await at.say(of_none)
        assert "which part?" in at.words
        await at.say("n")
        assert "“n” does not answer this" in at.words
        assert at.line.value == of_none
    assert not project(shop).snapshot.all(Note)


@asynccontextmanager
async def came_unasked(shop: Path) -> AsyncIterator[Bench]:
    """Have a line come into the line behind the question it was typed at."""
    async with bench(shop, (100, 30)) as at:
        await at.say(UNSURE)
        await at.say(SANDED)
        await at.do("enter")
        assert at.line.value == SANDED
        yield at


async def test_a_line_typed_at_a_question_comes_to_the_line_behind_it(
    shop: Path,
) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.say(UNSURE)
        await at.say(SANDED)
        assert "does not answer this" in at.words
        assert "it comes into the line once this is answered or dropped" in at.words
        assert at.line.value == UNSURE
        await kept(at, f"{UNSURE}\n{SANDED}", shop)
        await at.do("enter")
        assert at.line.value == SANDED
        await at.do("enter")
        await at.until(lambda: not drafts(shop))
    snapshot = project(shop).snapshot
    assert [one.title for one in snapshot.all(Note)] == [UNSURE]
    assert [one.title for one in snapshot.all(StepDone)] == [SANDED]


async def test_a_line_typed_at_a_dropped_question_waits_too(shop: Path) -> None:
    async with bench(shop) as at:
        await at.say(UNSURE)
        await at.type(SANDED)
        await at.press("escape")
        assert at.line.value == UNSURE
        await at.do("escape")
        assert at.line.value == SANDED


async def test_what_waited_when_the_terminal_was_closed_is_offered_again(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.say(UNSURE)
        await at.say(SANDED)
        await at.type("and now")
        await kept(at, f"{UNSURE}\nand now\n{SANDED}", shop)
    orphaned(shop)
    async with bench(shop) as at:
        assert at.line.value == UNSURE
        await at.press("end")
        for text in ("and now", SANDED, ""):
            await at.do("escape")
            assert at.line.value == text


async def test_what_is_pasted_at_a_question_is_typed_there(shop: Path) -> None:
    async with bench(shop) as at:
        await at.say(UNSURE)
        first, _, second = SANDED.partition(" ")
        at.app.post_message(Paste(f"{first}\r{second}\r"))
        await at.rest()
        assert at.line.value == UNSURE
        await at.do("enter", "enter")
        assert at.line.value == SANDED


async def test_a_count_at_the_question_whose_fault_begins_the_next_line(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.say("base cracked at the rim")
        await at.type("4 inserts are pressed in")
        await at.settle()
        assert at.line.value == "4 inserts are pressed in"
        await at.press("escape")
        await at.say("base cracked at the left bend")
        for sign in "2 screws are left over":
            at.app.post_message(Key("space" if sign == " " else sign, sign))
        await at.settle()
        assert at.line.value == "2 screws are left over"
    assert {one.met_by_others for one in project(shop).snapshot.all(Failure)} == {
        Blame.UNKNOWN
    }


async def test_a_figure_that_answered_is_given_back_to_the_line_it_began(
    shop: Path,
) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.say("base cracked at the rim")
        await at.do("1")
        await at.type(" screw is left over")
        assert at.line.value == "1 screw is left over"
        await at.press("backspace")


async def test_enter_opens_the_entry_the_marker_stands_at_whatever_the_line_has(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.type("sanded the rai")
        await at.do("up", "enter")
        assert isinstance(at.app.screen, RecordSheet)
        await at.do("escape")
        assert at.line.value == "sanded the rai"
        await at.say("ls")
    assert [one.title for one in project(shop).snapshot.all(StepDone)] == [
        "sanded the rails"
    ]


async def test_a_line_typed_at_the_question_of_a_wait_waits(shop: Path) -> None:
    logged(shop, "part", "lid")
    logged(shop, "step", "close the lid", "--uses", "lid", "--closes")
    logged(shop, "hold", "close the lid", "the cable lies outside")
    async with bench(shop, (100, 30)) as at:
        await at.say("riveted the lid on")
        await at.say(SANDED)
        assert (
            "“sanded the rails smooth, took 10 minutes” does not answer this"
            in at.words
        )
        assert at.line.value == "riveted the lid on"
        await at.do("enter")
        assert at.line.value == "riveted the lid on"
        await at.press("escape")
        assert at.line.value == SANDED


async def test_a_letter_typed_behind_a_line_that_came_unasked_begins_another(
    shop: Path,
) -> None:
    async with came_unasked(shop) as at:
        await at.type("oiled the rails")
        assert at.line.value == "oiled the rails"
        assert "comes when the line is empty" in at.words
        await kept(at, f"oiled the rails\n{SANDED}", shop)
        await at.do("enter")
        assert at.line.value == SANDED
        await at.type(" more")
        assert at.line.value == f"{SANDED} more", "a blank goes on with it"


async def test_what_is_pasted_behind_a_line_that_came_unasked_is_a_line(
    shop: Path,
) -> None:
    async with came_unasked(shop) as at:
        at.app.post_message(Paste("oiled the rails"))
        await at.rest()
        assert at.line.value == "oiled the rails"


async def test_a_line_that_came_unasked_is_mended_where_the_hand_goes_back(
    shop: Path,
) -> None:
    async with came_unasked(shop) as at:
        await at.press("backspace")
        await at.type("s.")
        assert at.line.value == f"{SANDED[:-1]}s."


@pytest.mark.parametrize(("about", "typed"), [("which kind", False), ("part", True)])
def test_only_a_question_that_takes_words_says_so(about: str, typed: bool) -> None:
    doubt = Doubt(about, "which?", ("one", "only a note"))
    shown = about_line(doubt, Vocabulary(now=NOW)).shown().plain
    assert ("or type it" in shown) is typed
