"""What came out wrong is not proposed as the size to draw; what is known is."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Deviation
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged

ASKED = "found 99 mm, wanted 100 mm: what shall the drawing say?"


def plate(shop: Path, drawn: str, *said: str) -> None:
    logged(shop, "part", "plate", "--dimension", f"width={drawn}")
    logged(shop, "say", "plate width 99 should be 100", "--yes", "--met-by", *said)


async def revising(at: Bench) -> None:
    await at.do("ctrl+r")
    await at.say("plate")


def last(shop: Path) -> Revision:
    return project(shop).snapshot.all(Revision)[-1]


@pytest.mark.parametrize("drawn", ["100", "100 ±0.5"])
async def test_the_fault_is_not_proposed_as_the_size_to_draw(
    shop: Path, drawn: str
) -> None:
    plate(shop, drawn, "drawing")
    async with bench(shop, (100, 30)) as at:
        await revising(at)
        assert ASKED in at.words
        assert "→" not in at.seen
        assert "[ ] plate width 99" in at.words
        await at.do("ctrl+s")
        assert "nothing changes yet" in at.words


async def test_the_size_that_is_typed_answers_what_was_found(shop: Path) -> None:
    plate(shop, "100", "drawing")
    async with bench(shop, (100, 30)) as at:
        await revising(at)
        while not at.app.screen.chosen.startswith("size"):  # type: ignore[attr-defined]
            await at.press("down")
        await at.type("101")
        assert "[x] plate width 99" in at.words
        assert "what shall the drawing say?" not in at.words
        await at.do("ctrl+u")
        assert "[ ] plate width 99" in at.words
        assert ASKED in at.words
        await at.type("101")
        await at.do("ctrl+s")
    [change] = last(shop).changes
    assert str(change.becomes) == "101 mm"
    every = project(shop).snapshot.all(Deviation)
    [found] = [one for one in every if one.title.startswith("plate width")]
    assert last(shop).because == (found.ref,)


@pytest.mark.parametrize("drawn", ["99", "99 ±0.5"])
async def test_a_drawing_that_says_what_was_found_is_to_say_what_was_wanted(
    shop: Path, drawn: str
) -> None:
    plate(shop, drawn, "drawing")
    async with bench(shop, (100, 30)) as at:
        await revising(at)
        assert "→ 100 mm" in at.words
        assert "[x] plate width 99" in at.words


@pytest.mark.parametrize(
    ("cure", "becomes"),
    [
        ("draw the width at 101", "101"),
        ("drawn at 101 mm", "101 mm"),
        ("blank cut longer, width = 101", "101"),
        ("draw it 1 mm wider", ""),
        ("holes 9 mm in", ""),
    ],
)
async def test_a_size_is_taken_from_a_cure_that_names_it(
    shop: Path, cure: str, becomes: str
) -> None:
    logged(shop, "part", "plate", "--dimension", "width=100")
    logged(
        shop, "deviation", "plate", "width off", "--dimension", "width", "--found",
        "99 mm", "--met-by", "drawing", "--cure", cure,
    )  # fmt: skip
    async with bench(shop, (100, 30)) as at:
        await revising(at)
        assert (f"→ {becomes} " in f"{at.words} ") if becomes else "→" not in at.seen
        assert ("what shall the drawing say?" in at.words) == (not becomes)
