"""How long each build took, as far as its time is on record."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from logbook.records.hours import shown_minutes, time_spent
from logbook.records.model import Build
from logbook.records.snapshot import Snapshot


def hours_told(snapshot: Snapshot) -> Iterator[str]:
    """Say the time of each build that has any, and how much of it a clock took."""
    for build in snapshot.all(Build):
        spent = time_spent(snapshot, build)
        total = sum(one.minutes for one in spent)
        clocked = sum(one.minutes for one in spent if one.by_clock)
        if not total:
            continue
        how = "all by the clock" if clocked == total else "as said"
        if 0 < clocked < total:
            how = f"{shown_minutes(clocked)} of it by the clock, the rest as said"
        yield f"{build.title} took about {_about(total)} ({how})"


def _about(minutes: Fraction | int) -> str:
    """Round to whole hours from three hours on: nobody's time is good to more."""
    whole = round(minutes / 60)
    return f"{whole} h" if minutes >= 180 else shown_minutes(minutes)
