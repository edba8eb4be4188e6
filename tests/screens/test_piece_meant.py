"""Which piece a reading goes to is said before it is taken, where there are several."""

from __future__ import annotations

from pathlib import Path

from logbook.records.kinds.happenings import Failure, Run
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged


async def test_the_piece_is_named_where_the_build_has_several(shop: Path) -> None:
    logged(shop, "part", "lid", "--dimension", "slot=18.5 ±0.1")
    logged(shop, "measure", "lid", "slot=18.45")
    async with bench(shop, (100, 30)) as at:
        await at.type("lid slot 18.42")
        assert "slot 18.42" in at.words
        assert "piece lid-1" not in at.words, "there is only one"
    logged(shop, "piece", "lid")
    async with bench(shop, (100, 30)) as at:
        at.line.put("")
        await at.type("lid slot 18.42")
        assert "part lid · piece lid-2 · size slot" in at.words
        at.line.put("")
        await at.type("lid-1 slot 18.42")
        assert "piece lid-2" not in at.words
        at.line.put("")
        await at.say("lid slot 18.42")
    taken = project(shop).snapshot.all(Run)[-1]
    assert taken.piece is not None
    assert taken.piece.name == "lid-2"


async def test_how_the_next_piece_is_begun_is_said_at_the_piece(shop: Path) -> None:
    logged(shop, "part", "lid", "--dimension", "slot=18.5 ±0.1")
    logged(shop, "measure", "lid", "slot=18.45")
    async with bench(shop, (80, 24)) as at:
        await at.do("f3")
        await at.type("lid")
        assert "type lid-2: the next piece of it" in at.words
        await at.type("-2")
        assert "Enter begins lid-2" in at.words


async def test_a_piece_that_a_line_puts_on_record_is_said_to_be_new(
    shop: Path,
) -> None:
    logged(shop, "build", "build 2")
    logged(shop, "part", "lid")
    async with bench(shop, (100, 30)) as at:
        await at.type("lid cracked at the slot")
        assert "piece lid-1 (new)" in at.words
        at.line.put("")
        await at.say("base dented at the left end")
        assert "which base? none of build 2 is on record yet" in at.words
        await at.do("1")
        assert "would another builder meet this?" in at.words
        await at.do("2")
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.piece is not None
    assert failure.piece.name == "base-1"
