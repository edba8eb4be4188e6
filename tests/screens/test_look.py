"""How everything looks: contrast, sizes, states in words; hostile text kept tame."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path

import pytest
from rich.color import Color, ColorSystem
from textual import constants
from textual.events import Paste

from logbook.records.kinds.happenings import Note
from logbook.records.kinds.ids import new_id
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.look import ON_SHEET, PALETTES
from logbook.screens.ruled.verbs import shown_key
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged

SIZES = [(60, 20), (80, 24), (120, 40), (200, 60)]
HOSTILE = [
    "shaft [h7] in [b]H7[/b] bore",
    "drawing [/] sheet [",
    "ring [@click=app.quit]seat[/]",
    "Ø12 ±3° «gauche» 軸 $ink \\[x]",
]


def luminance(colour: str) -> float:
    """Relative luminance by WCAG 2.2, “relative luminance”."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio by WCAG 2.2, “contrast ratio”."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_gives_its_published_ends() -> None:
    assert contrast("#ffffff", "#000000") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


SYSTEMS = {
    "truecolor": ColorSystem.TRUECOLOR,
    "256": ColorSystem.EIGHT_BIT,
    "standard": ColorSystem.STANDARD,
}
NOT_READ = set("│─├┤▸▾ ")
"""Rules and arrows: nothing is said by them alone."""


def as_drawn(colour: str | Color, system: str) -> str:
    """Give a colour as a terminal of so many colours draws it.

    For 16 colours these are the ones of xterm, as rich has them (`STANDARD_PALETTE`).
    """
    colour = Color.parse(colour) if isinstance(colour, str) else colour
    return colour.downgrade(SYSTEMS[system]).get_truecolor().hex


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("theme", PALETTES)
@pytest.mark.parametrize("ground", ["sheet", "band"])
def test_words_stand_out_from_their_ground(
    theme: str, system: str, ground: str
) -> None:
    palette = {
        name: as_drawn(colour, system)
        for name, colour in PALETTES[theme][system].items()
    }
    for ink in ON_SHEET:
        assert contrast(palette[ink], palette[ground]) >= 4.5, ink


def pairs(at: Bench) -> Iterator[tuple[str, Color, Color]]:
    """Give what is written on screen, its colour and its ground."""
    for row in at.app.screen._compositor.render_strips():
        for segment in row:
            style, text = segment.style, segment.text.strip()
            if style is None or not set(text) - NOT_READ:
                continue
            assert style.color is not None, text
            assert style.bgcolor is not None, text
            both = (style.color, style.bgcolor)
            yield text, *(both[::-1] if style.reverse else both)


@pytest.mark.parametrize("system", SYSTEMS)
async def test_whatever_is_written_can_be_read(
    shop: Path, monkeypatch: pytest.MonkeyPatch, system: str
) -> None:
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1, for every pair of colours in use."""
    monkeypatch.setattr(constants, "COLOR_SYSTEM", system)
    logged(shop, "part", "bar", "--dimension", "length=179.7 ±0.1")
    logged(shop, "gap", "bar in it", "base.opening - bar.length", "--limits", "0 to 1")
    ways: Sequence[Sequence[str]] = (
        (), ("f1",), ("f2",), ("f10",), ("ctrl+b",), ("f3", "enter"),
        ("ctrl+p", "enter"), ("ctrl+b", "1", "enter"),
    )  # fmt: skip
    async with bench(shop, (120, 40)) as at:
        for way in ways:
            await at.do(*way)
            for _ in PALETTES:
                for text, ink, ground in pairs(at):
                    drawn = as_drawn(ink, system), as_drawn(ground, system)
                    assert contrast(*drawn) >= 4.5, (way, text, at.app.theme, drawn)
                await at.press("f9")
            await at.press(*["escape"] * 3)
        await at.say("base opening 178.6 should be 180")
        for text, ink, ground in pairs(at):
            drawn = as_drawn(ink, system), as_drawn(ground, system)
            assert contrast(*drawn) >= 4.5, (text, drawn)


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_the_line_and_its_keys_are_to_be_seen_at_every_size(
    shop: Path, size: tuple[int, int]
) -> None:
    async with bench(shop, size) as at:
        for name in ("f1", "f2", "f3", "f5"):
            await at.do(name)
            region = at.app.screen.query_one(EntryLine).region
            assert region.height == 1
            assert region.bottom < size[1]
            assert shown_key("escape") in at.seen
            await at.do("escape")
        assert "what happened, in plain words" in at.seen
        for key in ("Enter take it", "F1 keys", "F2 find", "F3 measure", "F8 undo"):
            assert key in at.seen


async def test_the_screen_may_change_its_size_while_words_are_typed(shop: Path) -> None:
    async with bench(shop) as at:
        await at.type("bed")
        for width, height in SIZES:
            await at.pilot.resize_terminal(width, height)
            await at.pilot.pause()
            assert at.line.value == "bed"
            assert at.line.has_focus


async def test_the_band_keeps_what_is_measured_before_the_project(shop: Path) -> None:
    async with bench(shop, (60, 20)) as at:
        await at.do("f3", "enter")
        assert "measuring base-1" in at.seen
        await at.pilot.resize_terminal(120, 20)
        await at.settle()
        assert "Stand" in at.seen


@pytest.mark.parametrize("words", HOSTILE)
async def test_words_from_records_are_shown_as_written(shop: Path, words: str) -> None:
    found = project(shop)
    draft = found.draft(datetime.now(UTC).astimezone())
    part = draft.new_part(words)
    draft.add(
        Note(
            id=new_id(), title=words, prose=words, when=draft.when,
            build=draft.build().ref, part=part.ref,
        )
    )  # fmt: skip
    found.save(draft, "hostile words", draft.when)
    async with bench(shop, (120, 40)) as at:
        assert words in at.seen
        await at.do("f3")
        assert words in at.seen
        await at.do("escape", "f2")
        assert words in at.seen
        await at.do("escape", "up", "enter")
        assert at.seen.count(words) >= 2


@pytest.mark.parametrize("words", HOSTILE)
async def test_hostile_words_can_be_typed_and_taken(shop: Path, words: str) -> None:
    async with bench(shop, (120, 40)) as at:
        at.line.put(words)
        await at.pilot.pause()
        assert words in at.seen
        await at.do("enter")
        await at.do("enter", "enter")
    assert any(words in entry.title for entry in project(shop).snapshot.entries)


async def test_state_is_said_in_words_without_any_colour(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with bench(shop) as at:
        assert "undecided" in at.seen
        assert "NO LIMITS DRAWN" in at.seen
        drawing = at.app.export_screenshot()
        fills = set(re.findall(r"fill: (#[0-9a-f]{6})", drawing))
        grey = {c for c in fills if len({c[1:3], c[3:5], c[5:7]}) == 1}
        assert fills - grey <= {"#ff5f57", "#febc2e", "#28c840", "#c5c8c6"}


async def test_a_megabyte_pasted_is_refused_beside_the_line(shop: Path) -> None:
    async with bench(shop) as at:
        await at.type("bed")
        at.line.post_message(Paste("x" * 1_000_000))
        await at.pilot.pause()
        assert "1,000,000 characters were pasted" in at.seen
        assert at.line.value == "bed"
        assert at.line.has_focus


async def test_what_is_pasted_gets_no_control_signs_in(shop: Path) -> None:
    async with bench(shop) as at:
        at.line.post_message(Paste("sanded the \x1b[31mbed\x07\n"))
        await at.pilot.pause()
        assert at.line.value == "sanded the ␛[31mbed␇"


async def test_without_colour_what_calls_for_care_is_underlined(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with bench(shop) as at:
        strips = at.app.screen._compositor.render_strips()
        said = {
            part.text.strip(): part.style.underline
            for strip in strips
            for part in strip
            if part.style is not None
        }
        assert said["1,"], "one is undecided"
        assert not said["base opening 178.6 should be 180"]


async def test_in_colour_nothing_is_underlined_for_it(shop: Path) -> None:
    async with bench(shop) as at:
        strips = at.app.screen._compositor.render_strips()
        styles = [part.style for strip in strips for part in strip if part.style]
        assert not any(style.underline for style in styles)


@pytest.mark.parametrize(
    ("system", "brackets"), [("standard", True), ("256", False), ("truecolor", False)]
)
async def test_what_may_be_typed_never_looks_like_what_was(
    shop: Path, monkeypatch: pytest.MonkeyPatch, system: str, brackets: bool
) -> None:
    monkeypatch.setattr(constants, "COLOR_SYSTEM", system)
    async with bench(shop) as at:
        for keys in ((), ("ctrl+n",), ("ctrl+y",)):
            await at.do(*keys)
            asked = at.app.screen.query_one(EntryLine).placeholder
            assert (f"‹{asked}›" in at.words) is brackets, keys
            assert asked in at.words
            await at.type("bar")
            assert "‹" not in at.words
            await at.do(*["escape"] * 2)


async def test_it_does_not_either_without_colour(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with bench(shop, (60, 20)) as at:
        await at.do("ctrl+y")
        assert "‹a name; or the path of a file or a folder …›" in at.words
