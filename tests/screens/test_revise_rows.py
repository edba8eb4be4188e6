"""A form is gone through by Enter; what stands in no row is said; files are seen."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.design import Part
from logbook.records.together.revisions import current_revision
from logbook.screens.part.revise import Revise
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged
from tests.screens.test_revise import faulty, revising

__all__ = ["faulty"]


def chosen(at: Bench) -> str:
    screen = at.app.screen
    assert isinstance(screen, Revise)
    return screen.chosen


async def test_enter_goes_through_and_leaves_what_is_ticked(faulty: Path) -> None:
    async with bench(faulty, (120, 40)) as at:
        await revising(at)
        assert "[ ] crossbar bent" in at.seen
        first = chosen(at)
        await at.press("enter", "enter", "enter")
        assert chosen(at) != first
        assert "[x] crossbar binds" in at.seen
        assert "[x] length off" in at.seen


@pytest.mark.parametrize("key", ["space", "y", "x"])
async def test_one_key_ticks_an_entry(faulty: Path, key: str) -> None:
    async with bench(faulty, (120, 40)) as at:
        await revising(at)
        await at.press(key)
        assert "[x] crossbar bent" in at.seen
        assert at.line.value == ""
        await at.press("n")
        assert "[ ] crossbar bent" in at.seen


async def test_words_typed_at_an_entry_are_said_to_stand_in_no_row(
    faulty: Path,
) -> None:
    async with bench(faulty, (120, 40)) as at:
        await revising(at)
        first = chosen(at)
        await at.type("oversize holes")
        for key in ("enter", "down"):
            await at.press(key)
            assert "“oversize holes” stands in no row" in at.words
            assert (chosen(at), at.line.value) == (first, "oversize holes")


async def test_same_is_refused_at_its_row(faulty: Path) -> None:
    async with bench(faulty, (120, 40)) as at:
        await revising(at)
        while chosen(at) != "mates":
            await at.press("down")
        await at.type("same")
        await at.press("enter")
        assert "nobody has said what crossbar" in at.words
        assert chosen(at) == "mates"


async def test_a_drawing_made_anew_meanwhile_is_seen(faulty: Path) -> None:
    (faulty / "crossbar.svg").write_text("<svg/>", "utf-8")
    async with bench(faulty, (120, 40)) as at:
        await revising(at)
        assert "unchanged: crossbar.svg" in at.words
        (faulty / "crossbar.svg").write_text("<svg>longer</svg>", "utf-8")
        await at.until(lambda: "CHANGED SINCE: crossbar.svg" in at.words)


async def test_a_part_without_a_file_is_offered_those_of_no_part(faulty: Path) -> None:
    (faulty / "bracket.svg").write_text("<svg>bracket</svg>", "utf-8")
    (faulty / "mask.svg").write_text("<svg>mask</svg>", "utf-8")
    logged(faulty, "part", "bracket", "--dimension", "length=150 ±0.5")
    part = project(faulty).snapshot.lookup("bracket", Part)
    async with bench(faulty, (120, 40)) as at:
        await at.do("ctrl+r")
        await at.say("bracket")
        await at.until(lambda: "[x] bracket.svg" in at.words)
        assert "[ ] mask.svg" in at.words
        while chosen(at) != "changed":
            await at.press("down")
        await at.type("longer")
        while chosen(at) != "tie mask.svg":
            await at.press("down")
        await at.press("space")
        assert "[x] mask.svg" in at.words
        await at.press("n")
        assert "[ ] mask.svg" in at.words
        await at.do("ctrl+s")
    made = current_revision(project(faulty).snapshot, part)
    assert made is not None
    assert [file.path for file in made.files] == ["bracket.svg"]


async def test_a_file_alone_is_tied_and_saved(faulty: Path) -> None:
    (faulty / "mask.svg").write_text("<svg>mask</svg>", "utf-8")
    logged(faulty, "part", "bracket", "--dimension", "length=150 ±0.5")
    part = project(faulty).snapshot.lookup("bracket", Part)
    async with bench(faulty, (120, 40)) as at:
        await at.do("ctrl+r")
        await at.say("bracket")
        await at.until(lambda: "[ ] mask.svg" in at.words)
        await at.do("ctrl+s")
        assert "nothing changes yet" in at.words
        while chosen(at) != "tie mask.svg":
            await at.press("down")
        await at.press("space")
        await at.do("ctrl+s")
    made = current_revision(project(faulty).snapshot, part)
    assert made is not None
    assert ([file.path for file in made.files], made.changed) == (
        ["mask.svg"], "drawn in mask.svg",
    )  # fmt: skip


async def test_a_part_with_a_file_takes_more_only_where_they_are_ticked(
    faulty: Path,
) -> None:
    (faulty / "crossbar.dxf").write_text("0\nEOF\n", "utf-8")
    async with bench(faulty, (120, 40)) as at:
        await revising(at)
        await at.until(lambda: "[ ] crossbar.dxf" in at.words)
        while chosen(at) != "tie crossbar.dxf":
            await at.press("down")
        await at.press("space")
        assert "[x] crossbar.dxf" in at.words
        await at.do("ctrl+s")
    part = project(faulty).snapshot.lookup("crossbar", Part)
    made = current_revision(project(faulty).snapshot, part)
    assert made is not None
    assert [file.path for file in made.files] == ["crossbar.svg", "crossbar.dxf"]
