"""One part on screen: verdicts, sizes by piece, what went wrong, files, use."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.screens.part.part import PartSheet
from tests.screens.bench_keys import bench
from tests.screens.conftest import logged
from tests.screens.test_look import HOSTILE, SIZES


@pytest.fixture
def drawn(shop: Path) -> Path:
    (shop / "crossbar.svg").write_text("<svg/>", "utf-8")
    (shop / "lost.svg").write_text("<svg>lost</svg>", "utf-8")
    logged(
        shop, "part", "crossbar", "--process", "sawing",
        "--dimension", "length=179.7 ±0.1",
    )  # fmt: skip
    for number, size in (("1", "178.3"), ("2", "179.72")):
        logged(shop, "measure", "crossbar", "length", f"left={size}", "--piece", number)
    logged(
        shop, "failure", "crossbar", "crossbar binds", "--cure", "made to suit",
        "--met-by", "drawing",
    )  # fmt: skip
    logged(
        shop, "revise", "crossbar", "--changed", "made to suit", "--why", "it binds",
        "--dimension", "length=178.3", "--remake", "only if it binds",
        "--mates", "base first issue", "--file", "crossbar.svg", "--file", "lost.svg",
    )  # fmt: skip
    logged(
        shop, "gap", "bar in the opening", "base.opening - crossbar.length",
        "--limits", "0.1 to 0.5",
    )  # fmt: skip
    logged(shop, "step", "saw the bar", "--makes", "crossbar")
    return shop


async def test_a_part_shows_all_that_is_known_of_it(drawn: Path) -> None:
    (drawn / "crossbar.svg").write_text("<svg>redrawn</svg>", "utf-8")
    (drawn / "lost.svg").unlink()
    async with bench(drawn, (120, 40)) as at:
        await at.do("ctrl+p")
        await at.say("cross")
        for words in (
            "rev A, untried: made to suit",
            "remake: only if it binds",
            "mates: base first issue",
            "length 179.7 mm → 178.3 mm",
            "why: it binds",
            "178.3 mm (178.2 mm to 178.4 mm)",
            "off drawing (first issue)",
            "in (first issue)",
            "undecided · the drawing · crossbar binds",
            "cure: made to suit",
            "CHANGED SINCE: crossbar.svg",
            "missing: lost.svg",
            "gap: bar in the opening",
            "saw the bar",
        ):
            assert words in at.seen, words
        assert at.seen.count("●") == 1


async def test_of_a_bought_part_it_is_not_said_that_it_is_untried(drawn: Path) -> None:
    logged(drawn, "part", "M3 screw", "--source", "bought")
    async with bench(drawn, (120, 40)) as at:
        await at.do("ctrl+p")
        row = next(row for row in at.seen.splitlines() if "M3 screw" in row)
        assert "first issue, bought" in row
        assert "untried" not in row


async def test_rows_lead_to_their_records_and_back(drawn: Path) -> None:
    async with bench(drawn) as at:
        await at.do("ctrl+p")
        await at.type("cross")
        await at.do("enter", "tab", "enter")
        assert "· revision" in at.seen
        await at.do("escape")
        assert isinstance(at.app.screen, PartSheet)
        await at.do("shift+tab", "enter")
        assert "· part" in at.seen
        await at.do("escape")
        await at.type("binds")
        assert "crossbar binds" in at.seen
        assert "gap: bar" not in at.seen


async def test_finding_a_part_opens_it(drawn: Path) -> None:
    async with bench(drawn) as at:
        await at.do("f2")
        await at.type("sawing")
        await at.settle()
        await at.do("enter")
        assert isinstance(at.app.screen, PartSheet)


async def test_a_part_that_is_taken_back_says_so(drawn: Path) -> None:
    logged(drawn, "part", "shim")
    async with bench(drawn) as at:
        await at.do("ctrl+p")
        await at.say("shim")
        await at.do("f8")
        assert "which was not logged in this window" in at.words
        await at.do("f8")
        assert "part gone" in at.seen


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_a_part_is_to_be_read_at_every_size(
    drawn: Path, size: tuple[int, int]
) -> None:
    async with bench(drawn, size) as at:
        await at.do("ctrl+p")
        await at.type("cross")
        await at.do("enter", "tab", "tab")
        for words in ("rev A, untried", "off drawing", "Enter open", "Esc back"):
            assert words in at.seen
        # where there is no room for a strip the words stand alone
        assert ("├" in at.seen) is (size[0] >= 80)
        for width, height in SIZES:
            await at.pilot.resize_terminal(width, height)
        await at.do("pagedown", "pageup")


@pytest.mark.parametrize("words", HOSTILE)
async def test_a_hostile_part_is_shown_as_written(shop: Path, words: str) -> None:
    logged(shop, "part", words)
    logged(shop, "failure", words, words, "--cure", words)
    async with bench(shop, (120, 40)) as at:
        await at.do("ctrl+p")
        assert words in at.seen
        at.line.put(words)
        await at.settle()
        await at.do("enter")
        assert at.seen.count(words) >= 3


async def test_of_many_pieces_those_off_their_drawing_stand_first(shop: Path) -> None:
    logged(shop, "part", "spacer", "--dimension", "length=12.0 ±0.1")
    for number in range(1, 13):
        size = "12.3" if number == 11 else "12.0"
        logged(
            shop, "measure", "spacer", "length", size, "--piece", str(number),
            "--met-by", "piece",
        )  # fmt: skip
    async with bench(shop, (80, 24)) as at:
        await at.do("ctrl+p")
        await at.say("spacer")
        assert "11 within, 1 off drawing" in at.words
        pieces = [row for row in at.seen.splitlines() if "spacer-" in row]
        assert "spacer-11" in pieces[0]
        assert "off drawing" in pieces[0]
        assert "spacer-1" in pieces[1]


async def test_what_a_part_is_made_of_now_stands_where_it_is_chosen(
    shop: Path,
) -> None:
    logged(shop, "part", "bar", "--material", "6060", "--dimension", "length=40 ±0.1")
    async with bench(shop) as at:
        await at.do("ctrl+p")
        assert "6060" in at.words
    logged(
        shop, "revise", "bar", "--changed", "harder", "--why", "it bent",
        "--material", "6082", "--remake", "no", "--mates", "base",
    )  # fmt: skip
    async with bench(shop) as at:
        await at.do("ctrl+p")
        assert "6082" in at.words
        assert "6060" not in at.words
