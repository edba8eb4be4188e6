"""A fact opened for amending, and typed over, as a hand does it."""

from __future__ import annotations

from pathlib import Path

from logbook.records.kinds.design import Characteristic
from logbook.screens.record.record import RecordSheet
from logbook.screens.record.record_rows import rows_of_record
from tests.screens.bench_keys import Bench, project


async def on_opening(at: Bench, shop: Path) -> Characteristic:
    """Open the opening's sheet."""
    snapshot = project(shop).snapshot
    [opening] = [c for c in snapshot.all(Characteristic) if c.title == "opening"]
    at.app.push_screen(RecordSheet(at.app.desk, opening.id))
    await at.settle()
    return opening


async def on_fact(at: Bench, shop: Path, name: str) -> None:
    """Open the opening's sheet and begin to amend one of its facts."""
    opening = await on_opening(at, shop)
    keys = [line.key for line in rows_of_record(project(shop).snapshot, opening)]
    for _ in range(keys.index(f"fact {name}")):
        await at.press("down")
    await at.do("enter")


async def typed_over(at: Bench, text: str) -> None:
    await at.press("ctrl+u")
    await at.say(text)
