"""Every screen at few colours and at none: words, keys and states all the same."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path

import pytest
from rich.cells import cell_len
from textual import constants
from textual.binding import Binding

from logbook.records.kinds.table import KINDS
from logbook.screens.bench.bench import Bench as BenchScreen
from logbook.screens.gaps.gaps import Gaps
from logbook.screens.part.part import PartSheet
from logbook.screens.part.revise import Revise
from logbook.screens.ruled.margin_words import margin_word
from logbook.screens.ruled.rows import MARGIN
from logbook.screens.ruled.sheet import Sheet
from logbook.screens.ruled.verbs import shown_key
from logbook.screens.steps.steps import Steps
from tests.screens.bench_keys import bench
from tests.screens.conftest import logged

WAYS: dict[str, tuple[str, ...]] = {
    "ctrl+b": ("M4x16", "check", "stands out", "Esc back"),
    "ctrl+n": ("to do", "check first", "to tick", "Esc back"),
    "ctrl+p": ("first issue, untried", "off drawing", "Esc back"),
    "ctrl+r": ("[x]", "[ ]", "found 178.3 mm", "Ctrl-S save it"),
}
"""The key of each screen, and states that it must say in words."""
LABEL = MARGIN - 2
"""Columns of the margin beside the arrow."""


@pytest.fixture
def full(shop: Path) -> Path:
    logged(
        shop, "part", "crossbar", "--process", "sawing",
        "--dimension", "length=179.7 ±0.1",
    )  # fmt: skip
    logged(shop, "measure", "crossbar", "length", "178.3", "--met-by", "drawing")
    logged(shop, "failure", "crossbar", "it binds", "--met-by", "drawing")
    logged(
        shop, "joint", "collar to base", "M4x16", "--nut", "thin self-locking",
        "--nut-height", "5.0 mm", "--layer", "collar=8.35 mm", "--layer", "base=2.0 mm",
    )  # fmt: skip
    logged(shop, "step", "saw the bar", "--makes", "crossbar")
    logged(shop, "step", "screw the lid on", "--closes", "--inside", "cable")
    return shop


async def seen_on_all(full: Path) -> None:
    async with bench(full, (120, 40)) as at:
        for key, words in WAYS.items():
            await at.do(key)
            if key in {"ctrl+p", "ctrl+r"}:
                await at.say("cross")
            if key == "ctrl+n":
                await at.do("down")
            for word in words:
                assert word in at.seen, (key, word)
            await at.do("escape")


@pytest.mark.parametrize("colours", ["standard", "256", "truecolor"])
async def test_every_screen_works_at_few_colours(
    full: Path, monkeypatch: pytest.MonkeyPatch, colours: str
) -> None:
    monkeypatch.delenv("COLORTERM", raising=False)
    # what TEXTUAL_COLOR_SYSTEM says is read once, when Textual is loaded
    monkeypatch.setattr(constants, "COLOR_SYSTEM", colours)
    await seen_on_all(full)


async def test_every_screen_works_without_colour(
    full: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    await seen_on_all(full)


@pytest.mark.parametrize("screen", [BenchScreen, Gaps, PartSheet, Steps, Revise])
def test_every_verb_of_a_screen_has_a_key_of_its_own(screen: type[Sheet]) -> None:
    keys = [verb.key for verb in screen.VERBS]
    assert len(set(keys)) == len(keys)
    bound = {one.action: one.key for one in screen.BINDINGS if isinstance(one, Binding)}
    for verb in screen.VERBS[1:]:
        assert bound[verb.action].split(",")[0] == verb.key
        assert hasattr(screen, f"action_{verb.action.partition('(')[0]}") or (
            verb.action == "leave"
        )


@pytest.mark.parametrize("key", list(WAYS))
async def test_the_keys_of_every_screen_are_all_to_be_looked_up(
    full: Path, key: str
) -> None:
    async with bench(full, (120, 40)) as at:
        await at.do(key)
        if key in {"ctrl+p", "ctrl+r"}:
            await at.say("cross")
        screen = at.app.screen
        assert isinstance(screen, Sheet)
        await at.do("f1")
        for verb in screen.VERBS:
            assert verb.purpose in at.seen
            assert shown_key(verb.key) in at.seen


def test_every_fact_has_a_word_the_margin_has_room_for() -> None:
    facts = {
        one.metadata.get("key", one.name)
        for kind in KINDS.values()
        for one in fields(kind.type)
    }
    for fact in facts:
        assert cell_len(margin_word(fact)) <= LABEL, fact
