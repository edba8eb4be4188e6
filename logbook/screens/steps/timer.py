"""The clock: start it on a step, pause it, stop it; what it counted is logged."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import ClassVar

from textual.binding import BindingType

from logbook.advice.ground.advice import Advice
from logbook.advice.pieces import again
from logbook.errors import Refused
from logbook.plain.stated.order import step_fits
from logbook.project import Project
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.states.hours import minutes_typed, shown_minutes
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.clock_logged import work_draft
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.ruled import verbs
from logbook.screens.ruled.choosing import CHOOSE, Choosing
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.facing import MOVES
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say
from logbook.screens.steps.step_words import holds_of, is_dropped, said_of, state_of
from logbook.store.typed.work_clock import Clock, resumed, started

SAID = ("done", "waits", again.MAKE, again.FIT)
"""States of a step that matter to who starts a clock on it."""


class Timer(Choosing):
    """The clock with what it can do, then the steps it can be started on."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        CHOOSE, *MOVES, verbs.BACK, *verbs.IN_LISTS,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    ASKS = "a step or its number, words of your own, or the minutes: 25 min"
    NOTHING = "no step is on record: type what you work on"
    MARGIN_WORD = "clock ›"
    WAY = "clock"

    def __init__(self, desk: Desk) -> None:
        """Show the clock of this desk."""
        super().__init__(desk, "the clock")
        self._asked: Line | None = None
        self._says = ""

    def lines(self, typed: str) -> Sequence[Line]:
        """Give what can be done with the clock, then the steps that fit."""
        if self._asked is not None:
            return self._instead_of(self._asked)
        clock, steps = [*self._of_clock(typed)], [*self._steps(typed)]
        if typed.strip().isdecimal():  # a bare figure is a step before it is minutes
            return [*steps, *clock]
        return [*clock, *steps]

    def _instead_of(self, wanted: Line) -> Sequence[Line]:
        """Ask whether the clock that runs elsewhere ends for the one wanted."""
        clock = self.desk.clock.on
        if clock is None:
            return [Line(wanted.key, "start", wanted.words, wanted.kind)]
        counted = shown_minutes(self._minutes()[0])
        return [
            Line("leave", "leave it", f"{counted} on {clock.subject}", "goes on"),
            Line(wanted.key, "stop it", f"log {counted}, start {wanted.words}"),
        ]

    def _of_clock(self, typed: str) -> Iterator[Line]:
        clock = self.desk.clock.on
        if clock is None:
            return
        counted, left_out = self._minutes()
        said = shown_minutes(counted)
        if left_out:
            said += f" ({shown_minutes(left_out)} not counted)"
        said += f" on {clock.subject}"
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
            if step_fits(step, words):
                state = state_of(self.desk.snapshot, step, build, advice)
                told = f", {state}" if state in SAID else ""
                kind = f"step {step.number}{told}"
                yield Line(f"step {step.id}", "start", step.title, kind)
        if words and minutes_typed(typed) is None:
            yield Line("own", "start", " ".join(typed.split()), "own words")

    def about(self, line: Line) -> Sequence[Say]:
        """Say what the clock counts, and what a step has on record."""
        said: list[Say] = []
        clock = self.desk.clock.on
        if clock is not None:
            said += self._said_of(clock)
        sort, _, rest = line.key.partition(" ")
        step = self.desk.snapshot.by_id(rest, Step) if sort == "step" else None
        if step is not None:
            build = self.desk.build or self.desk.glance.build
            advice = self.desk.advice.advice
            said += said_of(self.desk.snapshot, step, build, advice)
        idle = round(self.desk.clock.idle.total_seconds() / 60)
        pause = f"counting stops after {idle} min without a key, and goes on with one"
        return [*said, Say("idle", pause)]

    def _said_of(self, clock: Clock) -> Iterator[Say]:
        """Say what the clock is on, for which build and where, and what is left out."""
        of = self.desk.called_if_other(clock.build)
        where = f"{clock.subject}, of {of}" if of else clock.subject
        if self.desk.clock.is_of_other_window(clock):
            where += ", started in another window; it is the same clock here and there"
        yield Say("runs on", where)
        left_out = self._minutes()[1]
        if left_out:
            idle = round(self.desk.clock.idle.total_seconds() / 60)
            yield Say(
                "left out",
                f"{shown_minutes(left_out)} not counted, because nothing was typed or "
                f"logged for more than {idle} min",
            )

    def choose(self, chosen: Line) -> None:
        """Do it: the clock is the same on every screen."""
        sort, _, rest = chosen.key.partition(" ")
        clock, now = self.desk.clock.on, self.desk.now()
        if sort in {"step", "own"}:
            if clock is not None and self._asked is None and self._is_elsewhere(clock):
                self._ask(chosen)
                return
            wanted = self._asked.words if self._asked else chosen.words
            self._start(wanted, rest if sort == "step" else "", clock)
        elif clock is None:
            self._says = "the clock was stopped meanwhile, in another window"
        elif sort == "leave":
            self._says = f"the clock on {clock.subject} goes on; no other was started"
        elif sort == "log":
            self._log(clock, int(rest), None)
        elif sort == "pause":
            self.desk.clock.pause(clock, now, self.desk.entries)
        elif sort == "resume":
            self.desk.clock.change(clock, lambda held: resumed(held, now))
        elif sort == "drop":
            self.desk.clock.change(clock, lambda _: None)
        self.dismiss(self._says)

    def _is_elsewhere(self, clock: Clock) -> bool:
        """Tell whether a clock is of another window that is open, or another build."""
        other = self.desk.called_if_other(clock.build)
        return bool(other) or self.desk.clock.is_of_other_window(clock)

    def _ask(self, wanted: Line) -> None:
        """Ask before the clock of another window or build ends."""
        clock = self.desk.clock.on
        self._asked = wanted
        self.query_one(EntryLine).value = ""
        self.narrow("")
        if clock is not None:
            of = self.desk.called_if_other(clock.build) or "another window"
            self.tell(f"the clock runs in {of} already, on {clock.subject}")

    def _start(self, subject: str, step: str, before: Clock | None) -> None:
        """Start a clock; what the one before it counted is logged first."""
        build, window = self.desk.shown.id, self.desk.clock.window
        clock = started(subject, build, self.desk.now(), step, window)
        if before is not None:
            self._log(before, self._minutes()[0], clock)
        else:
            self.desk.clock.start(clock)
        if waits := self._waits(step):
            self._says = "; ".join(filter(None, (self._says, waits)))

    def _waits(self, identity: str) -> str:
        """Say why the step the clock runs on waits; nothing where it does not."""
        step = self.desk.snapshot.by_id(identity, Step) if identity else None
        if step is None:
            return ""
        found = holds_of(self.desk.snapshot, step, self.desk.advice.advice)
        why = [one.statement for one in found if one.open and one.grade is Grade.WAIT]
        return (
            f"the clock runs, but {step.title} waits: {'; '.join(why)}" if why else ""
        )

    def _log(self, clock: Clock, counted: int, then: Clock | None) -> None:
        """Log what was counted; the clock goes once it is on disk, or if it is none."""
        if counted:
            self.desk.clock.leave_to_log(clock)
            self.desk.write(work_job(self.desk, clock, counted, then))
            return
        self.desk.clock.change(clock, lambda _: then)
        self._says = "less than half a minute: nothing was logged"


def work_job(desk: Desk, clock: Clock, counted: int, then: Clock | None = None) -> Job:
    """Make the work that logs the time a clock counted; `then` is the clock after it.

    It is logged once, whichever windows stop it.
    """
    now = desk.now()
    of = desk.called_if_other(clock.build)

    def make(project: Project) -> Draft:
        if desk.clock.claim(clock, project.snapshot) is None:
            raise Refused(
                f"the clock on {clock.subject} was stopped in another window; "
                "nothing is logged a second time"
            )
        build = project.snapshot.by_id(clock.build, Build)
        return work_draft(Draft(project.snapshot, now, build), clock, counted)

    spent = f"{shown_minutes(counted)} on {clock.subject}"
    return Job(
        f"time worked: {spent}",
        make,
        after=lambda: desk.clock.settle(clock, then),
        said=f"{spent}, of {of}" if of else "",
    )


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
