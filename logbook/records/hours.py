"""The time a build took, added up from what the clock and the entries say.

Where a clock ran for a step, its time counts and the time said when the step was
done does not, because both are about the same work.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction

from logbook.quantity import Quantity
from logbook.records.assembling import Step
from logbook.records.happenings import StepDone, Work
from logbook.records.snapshot import Snapshot
from logbook.records.workshop import Build


@dataclass(frozen=True, slots=True)
class Spent:
    """Minutes spent on one step; `name` is empty for work on no step."""

    name: str
    minutes: Fraction
    by_clock: bool


def time_spent(snapshot: Snapshot, build: Build) -> tuple[Spent, ...]:
    """Give the minutes a build took, step by step, in the order they were worked."""
    clocked: dict[str, Fraction] = defaultdict(Fraction)
    stated: dict[str, Fraction] = defaultdict(Fraction)
    ran: set[str] = set()
    for entry in snapshot.entries:
        if not isinstance(entry, Work | StepDone):
            continue
        if snapshot.find(entry.build, Build) is not build:
            continue
        step = snapshot.find(entry.step, Step)
        name = step.title if step else entry.step.name if entry.step else ""
        if isinstance(entry, StepDone) and not name:
            name = entry.title
        held = clocked if isinstance(entry, Work) else stated
        held[name] += _minutes(entry.time)
        if isinstance(entry, Work) and entry.began is not None:
            ran.add(name)
    return tuple(
        Spent(name, clocked[name] if name in clocked else stated[name], name in ran)
        for name in dict.fromkeys((*stated, *clocked))
        if clocked.get(name) or stated.get(name)
    )


def _minutes(time: Quantity | None) -> Fraction:
    if time is None or time.metal or time.dimension != "time":
        return Fraction(0)
    return time.to("min")


def shown_minutes(minutes: Fraction | int) -> str:
    """Say a length of time in hours and minutes: 2 h 5 min."""
    whole = round(minutes)
    if whole < 60:
        return f"{whole} min"
    hours, rest = divmod(whole, 60)
    return f"{hours} h {rest} min" if rest else f"{hours} h"
