"""The clock of a project as a test wants it: put on disk, begun so long ago."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from logbook.store.typed.work_clock import Clock, change_clock, read_clock


def put_clock(folder: Path, wanted: Clock | None) -> None:
    """Put this clock on disk, whatever was there; None takes it away."""
    change_clock(folder, lambda _: wanted)


def set_back(folder: Path, minutes: int) -> None:
    """Let the clock on disk have been started, and seen last, so long ago."""
    clock = read_clock(folder)
    assert clock is not None
    by = timedelta(minutes=minutes)
    began, seen = clock.began - by, clock.seen - by
    put_clock(folder, replace(clock, began=began, seen=seen, since=seen))
