"""On the bench and at the steps of a build by a release: its known faults, before."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.bench_keys import bench
from tests.screens.conftest import logged


@pytest.fixture
def older(shop: Path) -> Path:
    logged(shop, "part", "gate")
    logged(shop, "step", "put the gate in", "--uses", "gate")
    logged(shop, "step", "oil the hinge")
    logged(shop, "release", "1.0", "--anyway")
    fault = ("--met-by", "drawing", "--do", "scrap", "--cure", "print it in PETG")
    logged(shop, "failure", "gate", "gate sagged", *fault)
    logged(shop, "erratum", "gate sagged", "--stop-using-until", "it is of PETG")
    logged(shop, "build", "shed-1", "--of", "1.0")
    return shop


async def test_a_line_of_work_shows_the_known_fault_while_it_is_typed(
    older: Path,
) -> None:
    async with bench(older) as at:
        await at.type("printed the gate")
        assert "STOP, known fault: gate sagged; do not use it until" in at.words
        await at.do("enter")
        assert "do this now: print it in PETG" in at.words
        await at.type("put the gate in")
        assert "known fault" not in at.words


async def test_a_step_that_uses_it_is_marked(older: Path) -> None:
    async with bench(older) as at:
        await at.press("ctrl+n")
        await at.settle()
        assert "STOP · put the gate" in at.words
        assert "· oil the hinge" not in at.words
        assert "do not use it until it is of PETG" in at.words


async def test_beginning_a_build_by_it_says_how_many_there_are(older: Path) -> None:
    async with bench(older) as at:
        await at.type("start build 2 by release 1.0")
        await at.press("enter")
        told = "release 1.0 has 1 known fault, 1 with STOP"
        assert told in at.words
        await at.do("1")
        assert told in at.words


async def test_the_first_reading_of_a_piece_says_it_in_the_run(older: Path) -> None:
    async with bench(older) as at:
        await at.press("f3")
        await at.say("gate")
        await at.say("height 20.1")
        assert "STOP, known fault: gate sagged" in at.words
