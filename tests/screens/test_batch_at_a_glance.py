"""A batch read at a glance: how far it is, and each row of its own piece alone."""

from __future__ import annotations

from pathlib import Path

from logbook.records.kinds.workshop import Piece
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged


async def test_a_batch_says_how_much_of_it_is_read_and_repeats_no_other_piece(
    shop: Path,
) -> None:
    logged(shop, "part", "strip", "--dimension", "leg=30.0 ±0.5")
    async with bench(shop, (80, 24)) as at:
        await at.do("f5")
        await at.say("strip 30")
        assert "batch of 30: strip · 0 of 30 read" in at.words
        await at.say("29.90")
        assert "batch of 30: strip · 1 of 30 read" in at.words
        assert "not measured" in at.words
        assert "had 29.90" not in at.words


async def test_the_history_of_a_record_does_not_say_its_title_in_every_row(
    shop: Path,
) -> None:
    async with bench(shop, (80, 24)) as at:
        await at.say("the wide jaw is in the left drawer of the bench by the window")
        await at.do("enter")
        await at.rest()
        await at.do("up", "enter")
        await at.until(lambda: "history" in at.seen)
        [row] = [one for one in at.seen.splitlines() if "history" in one]
        assert "jaw" not in row


async def test_pieces_told_of_as_made_are_measured_and_not_made_again(
    shop: Path,
) -> None:
    logged(shop, "part", "strip", "--dimension", "leg=30.0 ±0.5")
    logged(shop, "say", "--yes", "printed five strips")
    async with bench(shop, (80, 24)) as at:
        await at.do("f5")
        await at.say("strip 5")
        assert "batch of 5: strip · 0 of 5 read" in at.words
        await at.say("29.90")
    assert sorted(one.title for one in project(shop).snapshot.all(Piece)) == [
        "base-1", "strip-1", "strip-2", "strip-3", "strip-4", "strip-5",
    ]  # fmt: skip


async def test_another_number_than_those_made_begins_new_ones(shop: Path) -> None:
    logged(shop, "part", "strip", "--dimension", "leg=30.0 ±0.5")
    logged(shop, "say", "--yes", "printed five strips")
    async with bench(shop, (80, 24)) as at:
        await at.do("f5")
        await at.say("strip 2")
        await at.say("29.90")
    names = {one.title for one in project(shop).snapshot.all(Piece)}
    assert "strip-6" in names
