"""What a shop has on disk while a window types in it, and after: lines and entries."""

from __future__ import annotations

import os
from pathlib import Path

from logbook.records.kinds.happenings import Run
from logbook.store.typed.drafts import drafts, keep_draft
from tests.screens.bench_keys import Bench, project


def lines_kept(shop: Path) -> list[str]:
    """Give the lines that were typed and are on no record."""
    return [one.text for one in drafts(shop)]


async def kept(at: Bench, text: str, shop: Path) -> None:
    """Wait until a line is on disk."""
    for _ in range(200):
        if text in lines_kept(shop):
            return
        await at.pilot.pause(0.05)
    raise AssertionError(lines_kept(shop))


def orphaned(shop: Path) -> None:
    """Let what is kept have been typed by a process that is gone."""
    for one in drafts(shop):
        purpose = one.for_what.replace(f" {os.getpid()}", " 999999999")
        keep_draft(shop, one.text, purpose, one.id)


def titles(shop: Path) -> list[str]:
    """Give the titles of all entries."""
    return [entry.title for entry in project(shop).snapshot.entries]


def readings(shop: Path) -> list[str]:
    """Give the values of all readings."""
    runs = project(shop).snapshot.all(Run)
    return [str(reading.value) for run in runs for reading in run.readings]
