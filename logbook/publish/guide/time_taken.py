"""How long the work takes, step by step and in all: as meant, and on one build."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from logbook.publish.release.released import Released
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.workshop import Build
from logbook.records.states.hours import Spent, minutes_of, shown_minutes, time_spent
from logbook.records.states.statements import Form

OTHER = "other work: undone since, or of no step here"


@dataclass(frozen=True, slots=True)
class TimeRow:
    """A step by its number and title; each time empty where it is not on record."""

    step: str
    meant: str
    took: str


@dataclass(frozen=True, slots=True)
class TimeTable:
    """The rows, their sum, the build they were taken on, how many steps have none."""

    build: str
    rows: tuple[TimeRow, ...]
    in_all: TimeRow
    without: int


def time_taken(released: Released) -> TimeTable | None:
    """Give the time of each step that has any; None where none has.

    Of several builds the newest with a time counts. What it took for work that is none
    of these steps is in the sum too.
    """
    build, spent = _newest(released)
    left = {one.name: one.minutes for one in spent}
    rows, meant, without = [], Fraction(0), 0
    for at, statement in enumerate(released.of(Form.STEP), 1):
        step = released.live(statement)
        planned = minutes_of(step.time) if isinstance(step, Step) else Fraction(0)
        title = statement.of.name
        took = left.pop(title, Fraction(0))
        meant += planned
        if planned or took:
            rows.append(TimeRow(f"step {at}, {title}", _shown(planned), _shown(took)))
        else:
            without += 1
    if other := sum(left.values(), Fraction(0)):
        rows.append(TimeRow(OTHER, "", _shown(other)))
    if not rows:
        return None
    total = sum((one.minutes for one in spent), Fraction(0))
    in_all = TimeRow("all on record", _shown(meant), _shown(total))
    return TimeTable(build.title if build else "", tuple(rows), in_all, without)


def _newest(released: Released) -> tuple[Build | None, tuple[Spent, ...]]:
    snapshot = released.snapshot
    for build in reversed(snapshot.all(Build)):
        spent = time_spent(snapshot, build)
        if any(one.minutes for one in spent):
            return build, spent
    return None, ()


def _shown(minutes: Fraction) -> str:
    return shown_minutes(minutes) if minutes else ""
