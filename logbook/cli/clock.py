"""`logbook clock`: the clock on a step, the one that the windows of a project share."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Mapping
from datetime import UTC, datetime

from logbook.cli import terms
from logbook.cli.shell_clock import clock_here, facts, told
from logbook.errors import BadInput, NotFound, Refused
from logbook.plain.stated.order import step_fits, step_meant
from logbook.project import Project
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.states.hours import minutes_typed, shown_minutes
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.clock_logged import work_draft
from logbook.screens.desk.step_clock import StepClock
from logbook.store.typed.work_clock import Clock, resumed, started

NONE = "no clock is running"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.description = (
        "The clock on a step, one for the windows and the shell: say how it stands, "
        "start it, let it pause and go on, stop it, which logs what it counted."
    )
    parser.add_argument(
        "do", nargs="?", choices=DO, default="status", help="what to do with it"
    )
    parser.add_argument(
        "words",
        nargs="*",
        help="start: a step, its number, or words of your own; stop: the time "
        "instead of what was counted, 25 min",
    )
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Do it, or say how the clock stands."""
    project = terms.opened(args)
    words, now = " ".join(args.words), terms.moment(args)
    if words and args.do not in _WITH_WORDS:
        raise BadInput(
            f"clock {args.do}: found “{words}”; accepted: nothing behind {args.do}"
        )
    return DO[args.do](project, args, words, now)


def _status(
    project: Project, args: argparse.Namespace, words: str, now: datetime
) -> int:
    del words
    clock = clock_here(project)
    if args.json:
        terms.answer(clock=facts(project, clock, now))
    else:
        print(told(project, clock, now) or f"{NONE}; logbook clock start STEP")
    return 0


def _start(
    project: Project, args: argparse.Namespace, words: str, now: datetime
) -> int:
    """Start it on a step, or on words of one's own.

    Raises:
        BadInput: nothing was said, or several steps are meant.
        Refused: a clock is there.
    """
    words = terms.something(words, "a step, its number, or words of your own")
    refusals: list[str] = []
    clock = clock_here(project, refusals.append)
    if clock.on is not None:
        counted = shown_minutes(clock.minutes(now, project.snapshot.entries)[0])
        raise Refused(
            f"a clock is on “{clock.on.subject}” already, {counted} counted; accepted: "
            "logbook clock stop, or drop, first"
        )
    step = _step(project.snapshot, words)
    subject, identity = (step.title, step.id) if step else (words, "")
    build = (
        project.snapshot.lookup(args.build, Build) if args.build else project.at_hand
    )
    clock.start(started(subject, build.id if build else "", now, identity))
    if refusals:
        raise Refused(refusals[0])
    if not args.json and step is None:
        print(f"no step is called “{words}”: it counts for these words, of no step")
    return _status(project, args, "", datetime.now(UTC))


def _step(snapshot: Snapshot, words: str) -> Step | None:
    """Give the step that is meant, None where the words fit none.

    Raises:
        BadInput: they fit several.
    """
    try:
        return step_meant(snapshot, words)
    except NotFound:
        wanted = words.casefold().split()
        found = [step for step in snapshot.all(Step) if step_fits(step, wanted)]
    if len(found) > 1:
        steps = ", ".join(f"{step.number} “{step.title}”" for step in found)
        raise BadInput(f"“{words}” fits several steps: {steps}; accepted: one of these")
    return found[0] if found else None


def _pause(
    project: Project, args: argparse.Namespace, words: str, now: datetime
) -> int:
    clock, on = _running(project)
    if not on.runs:
        raise Refused(f"the clock on “{on.subject}” is paused already")
    clock.pause(on, now, project.snapshot.entries)
    return _status(project, args, words, now)


def _go_on(
    project: Project, args: argparse.Namespace, words: str, now: datetime
) -> int:
    clock, on = _running(project)
    if on.runs:
        raise Refused(f"the clock on “{on.subject}” is running")
    clock.change(on, lambda held: resumed(held, now))
    return _status(project, args, words, now)


def _drop(project: Project, args: argparse.Namespace, words: str, now: datetime) -> int:
    del words
    clock, on = _running(project)
    counted = shown_minutes(clock.minutes(now, project.snapshot.entries)[0])
    clock.change(on, lambda _: None)
    if args.json:
        terms.answer(clock=None)
    else:
        print(f"the clock on “{on.subject}” is gone; {counted} are not logged")
    return 0


def _stop(project: Project, args: argparse.Namespace, words: str, now: datetime) -> int:
    """Stop it and log what it counted, or the time that is typed instead.

    Raises:
        BadInput: what is typed is no time.
        Refused: none is there, or another window logs it.
    """
    clock, on = _running(project)
    own = minutes_typed(words) if words else None
    if words and own is None:
        raise BadInput(f"clock stop: found “{words}”; accepted: a time, such as 25 min")
    held = clock.claim(on, project.snapshot)
    if held is None:
        raise Refused(f"the clock on “{on.subject}” was stopped in a window meanwhile")
    counted, left_out = clock.minutes_of(held, now, project.snapshot.entries)
    minutes = own or counted
    if not minutes:
        clock.settle(held)
        said = "the clock stopped; less than half a minute: nothing is logged"
        terms.answer(records=[], clock=None) if args.json else print(said)
        return 0
    build = project.snapshot.by_id(held.build, Build)
    draft = work_draft(Draft(project.snapshot, now, build), held, minutes)
    said = f"the clock stopped: {shown_minutes(minutes)} on {held.subject}"
    if left_out and own is None:
        said += (
            f"; {shown_minutes(left_out)} not counted, in which nothing was typed or "
            "logged (to log another time: logbook undo, then logbook clock stop TIME)"
        )
    subject = f"time worked: {shown_minutes(minutes)} on {held.subject}"
    return terms.save(project, draft, subject, args, tell=lambda _: [said])


def _running(project: Project) -> tuple[StepClock, Clock]:
    """Give the clock that is there.

    Raises:
        Refused: none is.
    """
    clock = clock_here(project)
    if clock.on is None:
        raise Refused(f"{NONE}; accepted: logbook clock start STEP")
    return clock, clock.on


_Do = Callable[[Project, argparse.Namespace, str, datetime], int]
DO: Mapping[str, _Do] = {
    "status": _status,
    "start": _start,
    "pause": _pause,
    "go-on": _go_on,
    "stop": _stop,
    "drop": _drop,
}
"""What can be done with the clock, by the word it is typed with."""
_WITH_WORDS = {"start", "stop"}
