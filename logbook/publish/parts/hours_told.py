"""How long each build took, as far as its time is on record."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.workshop import Build
from logbook.records.states.hours import Spent, shown_minutes, time_spent
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot


def hours_told(snapshot: Snapshot) -> Iterator[str]:
    """Say the time of each build that has any, and how much of it a clock took.

    What was said of a step and is in no sum is said beside.
    """
    for build in snapshot.all(Build):
        spent = time_spent(snapshot, build)
        total = sum(one.minutes for one in spent)
        clocked = sum(one.clocked for one in spent)
        if not total:
            continue
        how = "all by the clock" if clocked == total else "as said"
        if 0 < clocked < total:
            how = f"{shown_minutes(clocked)} of it by the clock, the rest as said"
        more = [_less(one) for one in spent if one.said]
        if untimed := _untimed(snapshot, build, spent):
            more.append(f"no time is on record of: {', '.join(untimed)}")
        how = "; ".join((how, *more))
        far = " so far" if is_under_way(snapshot, build) else ""
        yield f"{build.title} took about {_about(total)}{far} ({how})"


def _untimed(snapshot: Snapshot, build: Build, spent: Iterable[Spent]) -> list[str]:
    """Name the steps that were done in a build, and of which nobody said a time."""
    timed = {one.name for one in spent if one.minutes}
    last = {
        done.step.id: done
        for done in snapshot.all(StepDone)
        if done.step and snapshot.find(done.build) is build
    }
    steps = [snapshot.find(one.step, Step) for one in last.values() if not one.undone]
    return [step.title for step in steps if step and step.title not in timed]


def _less(one: Spent) -> str:
    """Say of a step that more was worked on it than was said when it was done."""
    said, worked = shown_minutes(one.said), shown_minutes(one.minutes)
    return f"{one.name}: {said} said, {worked} worked"


def is_under_way(snapshot: Snapshot, build: Build) -> bool:
    """Tell whether a build is the newest and has steps that are not done yet."""
    if build is not snapshot.all(Build)[-1]:
        return False
    last = {
        step.id: done
        for done in snapshot.all(StepDone)
        if snapshot.find(done.build) is build
        and (step := snapshot.find(done.step, Step)) is not None
    }
    open_ = (s for s in snapshot.all(Step) if not is_withdrawn(snapshot, s))
    return any(one.id not in last or last[one.id].undone for one in open_)


def _about(minutes: Fraction | int) -> str:
    """Round to whole hours from three hours on: nobody's time is good to more."""
    whole = round(minutes / 60)
    return f"{whole} h" if minutes >= 180 else shown_minutes(minutes)
