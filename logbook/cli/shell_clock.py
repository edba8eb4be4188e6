"""The clock of a project as the verbs see it: how it stands, and what ends it.

A verb is a window that is gone at once: what it does to the clock is on disk when it
answers, and open windows see it within a second.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from datetime import datetime
from typing import Any

from logbook.project import Project
from logbook.records.kinds.happenings import Work
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.states.hours import shown_minutes
from logbook.screens.desk.clock_ending import ClockEnding, Ended
from logbook.screens.desk.clock_logged import is_time_of
from logbook.screens.desk.step_clock import StepClock
from logbook.store.acts.last import Act
from logbook.store.typed.user_settings import read_settings
from logbook.store.typed.work_clock import idles

_OWN = f"{os.getpid()}-{new_id()}"
"""What a clock is claimed by that this verb logs."""


def _at_once(work: Callable[[], object]) -> None:
    work()


def _warn(said: str) -> None:
    print(said, file=sys.stderr)


def clock_here(project: Project, tell: Callable[[str], None] = _warn) -> StepClock:
    """Give the clock of a project; what is done to it is on disk at once."""
    clock = StepClock(_at_once, tell, read_settings().idle_minutes)
    clock.window = _OWN
    clock.load(project.root, project.snapshot)
    return clock


def ending(project: Project, draft: Draft, now: datetime) -> Ended | None:
    """Give the clock that ends with a draft, what it counted drafted along.

    It ends with the step it is on, or is in the draft already: then nothing is said.
    """
    clock = clock_here(project)
    for work in draft.made(Work):
        if clock.on is not None and is_time_of(work, clock.on):
            return Ended(clock.on, "")
    return ClockEnding(clock).drafted(draft, now, project.snapshot.entries)


def ended(project: Project, at: datetime, by: Ended) -> None:
    """Take a clock away, now that the act of this instant is on disk."""
    ClockEnding(clock_here(project)).saved(at, by)


def goes_on(project: Project, act: Act) -> str:
    """Let the clock go on that ended with an act taken back; say so, or nothing."""
    return ClockEnding(clock_here(project)).undone(act)


def ends_again(clock: StepClock, undoing: Act, at: datetime) -> str:
    """Let the clock end again that goes on by what was brought back; say so.

    `clock` is as it stood before.
    """
    return ClockEnding(clock).brought_back(undoing, at)


def told(project: Project, clock: StepClock, now: datetime) -> str:
    """Say how the clock stands, on what and in which build; empty: none is there."""
    on = clock.on
    if on is None:
        return ""
    counted, left_out = clock.minutes(now, project.snapshot.entries)
    build = project.snapshot.by_id(on.build, Build)
    of = f" ({build.title})" if build else ""
    said = f"the clock is on “{on.subject}”{of}: {shown_minutes(counted)}"
    if left_out:
        said += f", {shown_minutes(left_out)} not counted"
    if not on.runs:
        return f"{said}, paused; logbook clock go-on"
    if idles(on, now, clock.idle):
        idle = round(clock.idle.total_seconds() / 60)
        said += f", resting: nothing was typed or logged for more than {idle} min"
    return said


def facts(project: Project, clock: StepClock, now: datetime) -> dict[str, Any] | None:
    """Give the same for a program; None: none is there."""
    on = clock.on
    if on is None:
        return None
    counted, left_out = clock.minutes(now, project.snapshot.entries)
    build = project.snapshot.by_id(on.build, Build)
    resting = on.runs and idles(on, now, clock.idle)
    return {
        "on": on.subject,
        "step": on.step,
        "build": build.title if build else "",
        "began": on.began,
        "state": "resting" if resting else "running" if on.runs else "paused",
        "counted_min": counted,
        "left_out_min": left_out,
    }
