"""The clock: start it on a step, pause it, stop it; what it counted is logged."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import ClassVar

from textual.binding import BindingType

from logbook.advice.ground.advice import Advice
from logbook.advice.pieces import again
from logbook.errors import BadInput
from logbook.project import Project
from logbook.quantity import parse_quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.states.hours import shown_minutes
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.desk.step_clock import work_draft
from logbook.screens.ruled import verbs
from logbook.screens.ruled.choosing import CHOOSE, Choosing
from logbook.screens.ruled.facing import MOVES
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say
from logbook.screens.steps.step_words import is_dropped, said_of, state_of
from logbook.store.typed.work_clock import Clock, paused, resumed, started

SAID = ("done", again.MAKE, again.FIT)
"""States of a step that matter to who starts a clock on it."""
LONGEST_MIN = 7 * 24 * 60


class Timer(Choosing):
    """The clock with what it can do, then the steps it can be started on."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        CHOOSE, *MOVES, verbs.BACK, *verbs.IN_LISTS,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    ASKS = "a step or its number, words of your own, or the minutes: 25 min"
    NOTHING = "no step is on record: type what you work on"
    MARGIN_WORD = "clock ›"

    def __init__(self, desk: Desk) -> None:
        """Show the clock of this desk."""
        super().__init__(desk, "the clock")

    def lines(self, typed: str) -> Sequence[Line]:
        """Give what can be done with the clock, then the steps that fit."""
        return [*self._of_clock(typed), *self._steps(typed)]

    def _of_clock(self, typed: str) -> Iterator[Line]:
        clock = self.desk.clock.on
        if clock is None:
            return
        counted, left_out = self._minutes()
        said = f"{shown_minutes(counted)} on {clock.subject}"
        idle = round(self.desk.clock.idle.total_seconds() / 60)
        if left_out:
            said += (
                f"; {shown_minutes(left_out)} not counted, because nothing was "
                f"typed or logged for more than {idle} min"
            )
        own = minutes_typed(typed)
        if own is not None:
            yield Line(f"log {own}", "stop", f"log {shown_minutes(own)} instead")
            return
        if typed.strip():
            return
        yield Line(f"log {counted}", "stop", said, "log it")
        if clock.runs:
            yield Line("pause", "pause", f"counts {shown_minutes(counted)}", "running")
        else:
            yield Line("resume", "go on", f"counts {shown_minutes(counted)}", "paused")
        yield Line("drop", "drop", "take the clock away; nothing is logged")

    def _minutes(self) -> tuple[int, int]:
        return self.desk.clock.minutes(self.desk.now(), self.desk.entries)

    def _steps(self, typed: str) -> Iterator[Line]:
        if minutes_typed(typed) is not None and not typed.strip().isdecimal():
            return
        words = typed.casefold().split()
        build = self.desk.build or self.desk.glance.build
        advice = self.desk.advice.advice
        for step in open_first(self.desk.snapshot, build, advice):
            if fits(step, words):
                state = state_of(self.desk.snapshot, step, build, advice)
                told = f", {state}" if state in SAID else ""
                kind = f"step {step.number}{told}"
                yield Line(f"step {step.id}", "start", step.title, kind)
        if words and minutes_typed(typed) is None:
            yield Line("own", "start", " ".join(typed.split()), "own words")

    def about(self, line: Line) -> Sequence[Say]:
        """Say what the clock counts, and what a step has on record."""
        said = []
        clock = self.desk.clock.on
        if clock is not None:
            said.append(Say("runs on", clock.subject))
        sort, _, rest = line.key.partition(" ")
        stored = self.desk.snapshot.stored.get(rest) if sort == "step" else None
        if stored is not None:
            build = self.desk.build or self.desk.glance.build
            if isinstance(stored.record, Step):
                advice = self.desk.advice.advice
                said += said_of(self.desk.snapshot, stored.record, build, advice)
        idle = round(self.desk.clock.idle.total_seconds() / 60)
        pause = f"counting stops after {idle} min without a key, and goes on with one"
        return [*said, Say("idle", pause)]

    def choose(self, chosen: Line) -> None:
        """Do it: the clock is the same on every screen."""
        sort, _, rest = chosen.key.partition(" ")
        clock, now = self.desk.clock.on, self.desk.now()
        short = sort == "log" and int(rest) == 0
        if sort == "log" and clock is not None:
            self._log(clock, int(rest))
        elif sort == "pause" and clock is not None:
            self.desk.clock.put(paused(clock, now, self.desk.clock.idle))
        elif sort == "resume" and clock is not None:
            self.desk.clock.put(resumed(clock, now))
        elif sort == "drop":
            self.desk.clock.put(None)
        elif sort in {"step", "own"}:
            if clock is not None:
                self._log(clock, self._minutes()[0])
            self._start(chosen.words, rest if sort == "step" else "")
        self.dismiss("less than half a minute: nothing was logged" if short else "")

    def _start(self, subject: str, step: str) -> None:
        build = self.desk.build or self.desk.glance.build
        identity = build.id if build else ""
        self.desk.clock.put(started(subject, identity, self.desk.now(), step))

    def _log(self, clock: Clock, counted: int) -> None:
        """Log what was counted; the clock goes once it is on disk, or if it is none."""
        if counted:
            self.desk.clock.on = None
            self.desk.write(work_job(self.desk, clock, counted))
        else:
            self.desk.clock.put(None)


def work_job(desk: Desk, clock: Clock, counted: int) -> Job:
    """Make the work that logs the time a clock counted."""
    now = desk.now()

    def make(project: Project) -> Draft:
        stored = project.snapshot.stored.get(clock.build)
        build = stored.record if stored else None
        chosen = build if isinstance(build, Build) else None
        return work_draft(Draft(project.snapshot, now, chosen), clock, counted)

    return Job(
        f"time worked: {shown_minutes(counted)} on {clock.subject}",
        make,
        after=lambda: desk.clock.settle(clock),
    )


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


def fits(step: Step, words: Sequence[str]) -> bool:
    """Tell whether a step is meant: by words of its title, or by its number."""
    if len(words) == 1 and words[0].isdecimal():
        return int(words[0]) == step.number or words[0] in step.title.split()
    called = f"step {step.number} {step.title}".casefold()
    return all(word in called for word in words)


def open_first(
    snapshot: Snapshot, build: Build | None, advice: Sequence[Advice]
) -> list[Step]:
    """Give the steps in their order, those done on this build behind the others.

    What is dropped is not worked on; one whose piece is gone is to be done again.
    """
    steps = [step for step in snapshot.all(Step) if not is_dropped(snapshot, step)]

    def place(step: Step) -> tuple[bool, int, datetime]:
        done = state_of(snapshot, step, build, advice) == "done"
        return done, step.number, step.when

    return sorted(steps, key=place)
