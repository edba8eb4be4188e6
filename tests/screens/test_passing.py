"""The bench asks once before a line goes past what waits."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.cli import main
from logbook.records.model import Note, Override, StepDone
from logbook.records.words import OverrideReason
from tests.screens.bench_keys import bench, project


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
        await at.press("c")
        await at.settle()
        assert "step: close the lid" in at.seen
        assert at.line.value == ""
    snapshot = project(lid).snapshot
    assert [one.reason for one in snapshot.all(Override)] == [OverrideReason.CHECKED]
    assert [one.title for one in snapshot.all(StepDone)] == ["riveted the lid on"]


@pytest.mark.parametrize("key", ["2", "enter"])
async def test_not_done_yet_is_kept_as_a_note(lid: Path, key: str) -> None:
    async with bench(lid) as at:
        await at.type("close the lid")
        await at.press("enter")
        await at.press(key)
        await at.settle()
    snapshot = project(lid).snapshot
    assert [one.title for one in snapshot.all(Note)][-1] == "close the lid"
    assert not snapshot.all(StepDone)
    assert not snapshot.all(Override)


async def test_escape_gives_the_line_back_and_writes_nothing(lid: Path) -> None:
    async with bench(lid) as at:
        await at.type("riveted the lid on")
        await at.press("enter")
        await at.press("escape")
        await at.settle()
        assert at.line.value == "riveted the lid on"
    assert not project(lid).snapshot.all(StepDone)
