"""Whose a size is and when it was read is put right in all that one line made."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Deviation, Run
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import undisposed
from logbook.screens.record.record import RecordSheet
from logbook.screens.record.record_rows import rows_of_record
from tests.screens.amending_keys import typed_over
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged

LINE = "flange of the lid 12.35 instead of 12"


@pytest.fixture
def lidded(shop: Path) -> Path:
    """A shop in which the flange of the channel was logged as one of the lid."""
    logged(shop, "part", "lid")
    logged(shop, "part", "channel")
    logged(shop, "say", "--yes", "--when", "2024-03-15T10:00", LINE)
    return shop


def both(shop: Path) -> tuple[Deviation, Run]:
    snapshot = project(shop).snapshot
    return (
        next(one for one in snapshot.all(Deviation) if "12.35" in one.title),
        next(one for one in snapshot.all(Run) if "12.35" in one.title),
    )


async def amend(at: Bench, record: Deviation | Run, fact: str, typed: str) -> str:
    """Open an entry, type over one of its facts; give what is said then."""
    at.app.push_screen(RecordSheet(at.app.desk, record.id))
    await at.settle()
    keys = [line.key for line in rows_of_record(at.app.desk.snapshot, record)]
    row = next(n for n, key in enumerate(keys) if key.startswith(f"fact {fact}"))
    await at.press(*["down"] * row, "enter")
    await typed_over(at, typed)
    return " ".join(at.words.split())


def of(shop: Path) -> set[tuple[str, ...]]:
    """Give part, piece and dimension's part, as each half of the line has them."""
    snapshot = project(shop).snapshot
    found = set()
    for one in both(shop):
        sized = one.characteristic if isinstance(one, Deviation) else None
        what = one.readings[0].what if isinstance(one, Run) else sized
        item = snapshot.find(what, Characteristic)
        assert item is not None
        refs = (one.part, one.piece, item.part)
        found.add(tuple(ref.name if ref else "" for ref in refs))
    assert snapshot.problems == ()
    return found


@pytest.mark.parametrize("half", [0, 1])
async def test_the_wrong_part_is_put_right_in_both_halves_and_back_in_one_step(
    lidded: Path, half: int
) -> None:
    before = of(lidded)
    assert before == {("lid", "lid-1", "lid")}
    async with bench(lidded, (100, 30)) as at:
        said = await amend(at, both(lidded)[half], "part", "channel")
    assert "amended: flange of the channel 12.35 instead of 12; with it:" in said
    assert of(lidded) == {("channel", "channel-1", "channel")}
    snapshot = project(lidded).snapshot
    lid = snapshot.lookup("lid", Part)
    assert not snapshot.mentions(lid, Piece), "nobody has made a lid"
    assert not snapshot.mentions(lid, Characteristic)
    project(lidded).undo(datetime.now(UTC))
    assert of(lidded) == before
    assert project(lidded).snapshot.mentions(lid, Piece)


@pytest.mark.parametrize("half", [0, 1])
async def test_what_else_is_on_record_of_the_wrong_part_stays(
    lidded: Path, half: int
) -> None:
    logged(lidded, "measure", "lid", "flange", "12.1")
    logged(lidded, "measure", "channel", "flange", "11.9")
    async with bench(lidded, (100, 30)) as at:
        await amend(at, both(lidded)[half], "part", "channel")
    assert of(lidded) == {("channel", "channel-1", "channel")}
    snapshot = project(lidded).snapshot
    for name in ("lid", "channel"):
        part = snapshot.lookup(name, Part)
        assert len(snapshot.mentions(part, Piece)) == 1
        assert len(snapshot.mentions(part, Characteristic)) == 1


@pytest.mark.parametrize("half", [0, 1])
async def test_the_piece_is_put_right_in_both(lidded: Path, half: int) -> None:
    logged(lidded, "piece", "channel")
    async with bench(lidded, (100, 30)) as at:
        await amend(at, both(lidded)[half], "piece", "channel-1")
    assert of(lidded) == {("channel", "channel-1", "channel")}


@pytest.mark.parametrize("half", [0, 1])
async def test_the_day_is_put_right_in_both_with_the_readings(
    lidded: Path, half: int
) -> None:
    async with bench(lidded, (100, 30)) as at:
        said = await amend(at, both(lidded)[half], "when", "2024-03-14 10:00")
    assert "with it: flange of the lid" in said
    deviation, run = both(lidded)
    days = {deviation.when.date(), run.when.date(), run.readings[0].at.date()}
    assert days == {date(2024, 3, 14)}
    piece = project(lidded).snapshot.find(run.piece, Piece)
    assert piece is not None
    assert piece.when <= run.when
    project(lidded).undo(datetime.now(UTC))
    assert {one.when.date().day for one in both(lidded)} == {15}


async def test_the_dimension_is_put_right_in_both(lidded: Path) -> None:
    logged(lidded, "measure", "lid", "lip", "11.9")
    async with bench(lidded, (100, 30)) as at:
        await amend(at, both(lidded)[0], "characteristic", "lip")
    deviation, run = both(lidded)
    assert deviation.characteristic == run.readings[0].what
    assert deviation.characteristic
    assert deviation.characteristic.name == "lip"


async def test_a_size_that_was_put_right_and_is_within_asks_for_no_decision(
    drawn: Path,
) -> None:
    logged(drawn, "say", "--yes", "bar length 40.2 should be 40")
    open_ones = undisposed(project(drawn).snapshot)
    [deviation] = [one for one in open_ones if "40.2" in one.title]
    assert isinstance(deviation, Deviation)
    async with bench(drawn, (100, 30)) as at:
        await amend(at, deviation, "found", "40.03")
    assert deviation.id not in {one.id for one in undisposed(project(drawn).snapshot)}
    project(drawn).undo(datetime.now(UTC))
    assert deviation.id in {one.id for one in undisposed(project(drawn).snapshot)}
