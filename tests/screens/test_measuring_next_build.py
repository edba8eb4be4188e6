"""Measuring in a later build: a part begins a piece of its own; what suits a gap."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Run
from logbook.records.kinds.workshop import Piece
from logbook.screens.run.measure import Measure
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged


@pytest.fixture
def second(shop: Path) -> Path:
    logged(shop, "build", "build 2")
    return shop


async def begun(at: Bench, part: str) -> None:
    await at.settle()
    await at.press("f3")
    await at.type(part)
    await at.settle()


async def test_a_part_of_an_earlier_build_begins_its_next_piece(second: Path) -> None:
    async with bench(second, (120, 40)) as at:
        await begun(at, "base")
        assert "new part" not in at.seen
        assert "no piece yet: Enter begins base-2" in at.seen
        assert "base-1 (build 1) had 178.6 mm" in at.seen
        await at.do("enter")
        assert isinstance(at.app.screen, Measure)
        assert "measuring base-2" in at.seen
        # so wide a screen says it beside the list
        assert "178.6 mm  base-1, build 1" in at.seen
        assert "before: " not in at.seen
        await at.say("179.9")
        # past the last size the number taken last stays to be read
        assert "179.9 mm · wanted 180 mm, not drawn" in at.seen
    snapshot = project(second).snapshot
    run = snapshot.all(Run)[-1]
    piece = snapshot.find(run.piece, Piece)
    assert piece is not None
    assert (run.title, piece.title) == ("measured base-2", "base-2")
    assert piece.build is not None
    assert piece.build.name == "build 2"


def made_to_suit(shop: Path) -> None:
    """Let the crossbar be made last, to suit the opening of the base."""
    logged(
        shop, "part", "crossbar", "--process", "sawing", "--dimension", "length=179.7"
    )
    logged(
        shop, "gap", "bar in the opening", "base.opening - crossbar.length",
        "--limits", "0.1 to 0.5", "--last", "crossbar.length",
    )  # fmt: skip


async def test_what_is_made_to_suit_is_held_to_what_its_gap_accepts(
    shop: Path,
) -> None:
    made_to_suit(shop)
    async with bench(shop, (80, 24)) as at:
        await begun(at, "crossbar")
        await at.do("enter")
        assert "made to suit, finish 178.30 mm" in at.seen
        await at.type("178.3")
        assert "WITHIN" in at.seen
        assert " mm" in at.seen
        await at.press("ctrl+u")
        await at.type("177")
        assert "DOES NOT SUIT" in at.seen


async def test_a_piece_made_to_suit_is_measured_again_within_the_same_limits(
    shop: Path,
) -> None:
    made_to_suit(shop)
    async with bench(shop, (80, 24)) as at:
        await begun(at, "crossbar")
        await at.do("enter")
        await at.say("178.9")
        assert "does not suit" in at.words
        await at.do("escape", "escape")
        # the bench says what the run said
        assert "DOES NOT SUIT" in at.seen
        assert "NO LIMITS" not in at.seen
        await begun(at, "crossbar")
        await at.do("enter")
        assert "made to suit, finish 178.30 mm" in at.seen
        assert "its gap gives none yet" not in at.words
        await at.say("178.3")
        assert "178.3 mm within" in at.words
        await at.do("escape", "escape")
        assert "WITHIN" in at.seen
