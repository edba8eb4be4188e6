"""The time a build took, added up from what the clock and the entries say.

The time said when a step was done is about the whole of it, and so about what was
worked on it before, by the clock or as said: the longer of both counts.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction

from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import StepDone, Work
from logbook.records.kinds.workshop import Build
from logbook.records.together.snapshot import Snapshot

LONGEST_MIN = 7 * 24 * 60
"""Minutes that one work can have taken at most."""


@dataclass(frozen=True, slots=True)
class Spent:
    """Minutes spent on one step; `name` is empty for work on no step.

    `clocked` of them were counted by the clock. `said` is what was said when it was
    done, where that is less than was worked on it before and so is in no sum.
    """

    name: str
    minutes: Fraction
    clocked: Fraction
    said: Fraction = Fraction(0)


def time_spent(snapshot: Snapshot, build: Build) -> tuple[Spent, ...]:
    """Give the minutes a build took, step by step, in the order they were worked."""
    worked: dict[str, Fraction] = defaultdict(Fraction)
    clocked: dict[str, Fraction] = defaultdict(Fraction)
    stated: dict[str, Fraction] = defaultdict(Fraction)
    for entry in snapshot.entries:
        if not isinstance(entry, Work | StepDone):
            continue
        if snapshot.find(entry.build, Build) is not build:
            continue
        step = snapshot.find(entry.step, Step)
        name = step.title if step else entry.step.name if entry.step else ""
        if isinstance(entry, StepDone):
            stated[name or entry.title] += minutes_of(entry.time)
            continue
        worked[name] += minutes_of(entry.time)
        if entry.began is not None:
            clocked[name] += minutes_of(entry.time)
    return tuple(
        Spent(
            name,
            max(worked[name], stated[name]),
            clocked[name],
            stated[name] if stated[name] < worked[name] else Fraction(0),
        )
        for name in dict.fromkeys((*stated, *worked))
        if worked[name] or stated[name]
    )


def minutes_of(time: Quantity | None) -> Fraction:
    """Give a time in minutes; 0 where there is none, or it is no time."""
    if time is None or time.metal or time.dimension != "time":
        return Fraction(0)
    return time.to("min")


def minutes_typed(typed: str) -> int | None:
    """Read minutes typed instead of what was counted; None where it is no time."""
    try:
        time = parse_quantity(typed, "min")
    except BadInput:
        return None
    if time.metal or time.dimension != "time":
        return None
    whole = round(time.to("min"))
    return whole if 0 < whole <= LONGEST_MIN else None


def shown_minutes(minutes: Fraction | int) -> str:
    """Say a length of time in hours and minutes: 2 h 5 min."""
    whole = round(minutes)
    if whole < 60:
        return f"{whole} min"
    hours, rest = divmod(whole, 60)
    return f"{hours} h {rest} min" if rest else f"{hours} h"
