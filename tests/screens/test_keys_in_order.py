"""Keys that come in one burst do what the same keys do one after the other."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from textual.events import Key, Paste
from textual.widgets import Input

from logbook.records.kinds.happenings import Failure, Run
from logbook.records.kinds.words import Blame
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.keys_in_order import KeysInOrder
from tests.screens.bench_keys import Bench, bench, keys, project

ENTER = ("enter", "\r")


async def burst(at: Bench, *parts: str) -> None:
    """Send texts, each with its Enter, without waiting for anything."""
    for text in parts:
        for key, sign in [*zip(keys(text), text, strict=True), ENTER]:
            at.app.post_message(Key(key, sign))
    await at.settle()


def titles(folder: Path) -> set[str]:
    """Give what the project's entries are called."""
    return {entry.title for entry in project(folder).snapshot.entries}


async def test_lines_sent_in_one_burst_are_each_one_entry(shop: Path) -> None:
    said = ("sanded the bed", "oiled the bed", "waxed the bed")
    async with bench(shop) as at:
        await burst(at, *said)
        assert at.line.value == ""
    assert set(said) <= titles(shop)


async def test_a_caliper_that_types_fast_fills_a_run_in_its_order(shop: Path) -> None:
    async with bench(shop) as at:
        at.app.post_message(Key("f3", None))
        await burst(at, "cam", "w 40.2", "h 12.1", "t 3.02")
    [run] = [r for r in project(shop).snapshot.all(Run) if "cam" in r.title]
    assert [str(r.value) for r in run.readings] == ["40.2 mm", "12.1 mm", "3.02 mm"]


async def test_who_types_on_does_not_answer_the_question_by_it(shop: Path) -> None:
    async with bench(shop) as at:
        await burst(at, "diffuser cracked at a corner screw", "drilled the bed")
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.met_by_others is Blame.UNKNOWN
    assert "drilled the bed" in titles(shop)


async def test_a_paste_between_keys_keeps_its_place(shop: Path) -> None:
    async with bench(shop) as at:
        at.app.post_message(Key("s", "s"))
        at.app.post_message(Key("backspace", "\x7f"))
        at.app.post_message(Paste("sanded the"))
        await burst(at, " base")
    assert "sanded the base" in titles(shop)


class OneLine(KeysInOrder[None]):
    """A line and nothing else."""

    def compose(self) -> Iterable[EntryLine]:
        """Lay out the line."""
        yield EntryLine()


EDITS = {
    "left": "\x1b[D", "right": "\x1b[C", "home": "\x1b[H", "end": "\x1b[F",
    "backspace": "\x7f", "delete": "\x1b[3~",
}  # fmt: skip


def by_hand(pressed: Iterable[str]) -> str:
    """Edit a text as a line does, one key after the other."""
    text, at = "", 0
    for key in pressed:
        if len(key) == 1:
            text, at = text[:at] + key + text[at:], at + 1
        elif key == "backspace":
            text, at = text[: max(at - 1, 0)] + text[at:], max(at - 1, 0)
        elif key == "delete":
            text = text[:at] + text[at + 1 :]
        else:
            step = {"left": at - 1, "right": at + 1, "home": 0, "end": len(text)}
            at = max(0, min(len(text), step[key]))
    return text


@settings(max_examples=15, deadline=None)
@given(st.lists(st.sampled_from([*"abc", *EDITS]), max_size=30))
async def test_any_burst_edits_the_line_as_slow_typing_does(pressed: list[str]) -> None:
    app = OneLine()
    async with app.run_test() as pilot:
        await pilot.pause()
        app.query_one(EntryLine).focus()
        await pilot.pause()
        for key in pressed:
            app.post_message(Key(key, key if len(key) == 1 else None))
        while app.message_queue_size or not app.keys_at_rest:
            await pilot.pause()
        assert app.query_one(Input).value == by_hand(pressed)


async def test_a_key_whose_line_goes_away_does_not_stop_the_next(shop: Path) -> None:
    async with bench(shop) as at:
        at.app.post_message(Key("f2", None))
        for key, sign in zip(keys("bed"), "bed", strict=True):
            at.app.post_message(Key(key, sign))
        at.app.post_message(Key("escape", "\x1b"))
        await burst(at, "sanded the base")
    assert "sanded the base" in titles(shop)


@pytest.mark.parametrize("count", [1, 40])
async def test_every_key_of_a_burst_arrives(shop: Path, count: int) -> None:
    async with bench(shop) as at:
        await at.type("x" * count)
        assert at.line.value == "x" * count
