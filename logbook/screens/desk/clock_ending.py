"""The clock on a step ends where that step is logged as done, in the same act.

So whatever takes that act back, a key or the shell, takes both back, and the clock goes
on as it did. So it does where it was stopped by itself and that is taken back.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from logbook.records.kinds.happenings import Entry, StepDone
from logbook.records.making.drafts import Draft
from logbook.records.states.hours import shown_minutes
from logbook.screens.desk.clock_logged import work_draft
from logbook.screens.desk.step_clock import StepClock
from logbook.store.acts.last import Act
from logbook.store.typed.ended_clocks import ended_by, note_ended
from logbook.store.typed.work_clock import Clock


@dataclass(frozen=True, slots=True)
class Ended:
    """A clock that ends, and what is said of it."""

    clock: Clock
    said: str


class ClockEnding:
    """Ends the clock by what is logged at one door, and lets it go on again."""

    def __init__(self, clock: StepClock) -> None:
        """End this clock."""
        self._clock = clock

    def drafted(
        self, draft: Draft, now: datetime, entries: Sequence[Entry]
    ) -> Ended | None:
        """Give the clock that ends with a draft, what it counted drafted along.

        Where the step came with its own time, that stands and nothing is counted.
        """
        steps = draft.made(StepDone)
        there = self._clock.look() if steps else None
        done = next((one for one in steps if _ends(one, there)), None)
        if there is None or done is None or self._clock.is_leaving(there):
            return None
        clock = self._clock.claim(there, draft.snapshot)
        if clock is None:
            return None
        if done.time is not None:
            return Ended(
                clock, f"the clock stopped; the time typed stands: {done.time}"
            )
        counted, _ = self._clock.minutes_of(clock, now, entries)
        if not counted:
            return Ended(clock, "the clock stopped; it counted less than half a minute")
        _time_before(draft, done, clock, counted)
        shown = f"{shown_minutes(counted)} on {clock.subject}"
        return Ended(clock, f"the clock stopped: {shown}")

    def saved(self, at: datetime, ended: Ended | None) -> None:
        """Take the clock away, now that the act of this instant is on disk.

        Of one that is about to be logged by itself it is only noted that this act did.
        """
        clock = ended.clock if ended else self._clock.being_logged()
        if clock is not None and self._clock.root is not None:
            note_ended(self._clock.root, at.isoformat(), clock)
        if ended is not None:
            self._clock.settle(ended.clock)

    def undone(self, act: Act) -> str:
        """Let the clock go on that ended with an act; say so, or why it does not."""
        root = self._clock.root
        clock = ended_by(root, act.at) if root is not None else None
        if clock is None:
            return ""
        there = self._clock.look()
        if there is not None:
            return f"the clock stays on {there.subject}, not on {clock.subject}"
        self._clock.go_on(clock)
        return f"the clock on {clock.subject} goes on"

    def brought_back(self, undoing: Act, at: datetime) -> str:
        """Let the clock end again that goes on by what an act took back; say so.

        What it counted is on record again, by an act of this instant.
        """
        root = self._clock.root
        clock = ended_by(root, undoing.of) if root is not None else None
        there = self._clock.look() if clock is not None else None
        if root is None or clock is None or there is None or not clock.is_same(there):
            return ""
        note_ended(root, at.isoformat(), there)
        self._clock.change(there, lambda _: None)
        return f"the clock on {clock.subject} is stopped again"


def _time_before(draft: Draft, done: StepDone, clock: Clock, counted: int) -> None:
    """Draft the time before the step, so that the step stays the newest entry."""
    work_draft(draft, clock, counted)
    work = replace(draft.new.pop(), when=done.when - timedelta(milliseconds=1))
    draft.new.insert(draft.new.index(done), work)


def _ends(done: StepDone, clock: Clock | None) -> bool:
    """Tell whether a step done is the one a clock is on, done since that began."""
    if clock is None or not clock.step or done.undone or done.step is None:
        return False
    elsewhere = done.build is not None and clock.build not in ("", done.build.id)
    since = clock.began.replace(second=0, microsecond=0)
    return done.step.id == clock.step and not elsewhere and done.when >= since
