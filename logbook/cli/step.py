"""`logbook step`: an operation of the order of work, or one that was carried out."""

from __future__ import annotations

import argparse
import sys
from dataclasses import replace
from typing import Any

from logbook.cli import names, terms
from logbook.cli.asking import Asking
from logbook.cli.closing import asked_past, goes_past, tell_past
from logbook.cli.faults_told import tell_faults
from logbook.errors import Refused
from logbook.plain.drafts.order_of_work import done_before
from logbook.plain.stated.order import stated_step, step_arguments
from logbook.plain.stated.several_told import things_told
from logbook.project import Project
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import Status, StepDone
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import State


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    step_arguments(parser)
    parser.add_argument("--done", action="store_true", help="it was carried out")
    parser.add_argument(
        "--undone", action="store_true", help="it was taken apart again"
    )
    parser.add_argument(
        "--dropped", default="", metavar="WHY", help="it is not done any more, and why"
    )
    parser.add_argument(
        "--because", default="", metavar="WHY", help="why it is done though it waits"
    )
    names.insisting(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the step, or that it was done."""
    project = terms.opened(args)
    if args.done or args.undone:
        return _done(args)
    if args.dropped:
        return _dropped(project, args)
    draft = project.draft(terms.moment(args))
    step = stated_step(draft, args)
    known = step.id in project.snapshot
    code = terms.save(project, draft, f"step: {args.name}", args)
    if not known and (told := done_before(project.snapshot, step, project.at_hand)):
        print(told, file=sys.stderr)
    return code


def _dropped(project: Project, args: argparse.Namespace) -> int:
    """Withdraw a step: later releases leave it out, earlier ones keep it."""
    draft = project.draft(terms.moment(args), args.build)
    step = project.snapshot.lookup(args.name, Step)
    draft.add(
        Status(
            id=new_id(),
            title=f"{step.title}: not done any more",
            when=draft.when,
            of=step.ref,
            state=State.WITHDRAWN,
            because=args.dropped,
        )
    )
    return terms.save(project, draft, f"step dropped: {step.title}", args)


def _done(args: argparse.Namespace) -> int:
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    known = project.snapshot.named(args.name, Step)
    step = known[0] if known else None
    time = terms.value(args.time, draft) if args.time else None
    seen: dict[str, Any] = {
        sort: things_told(getattr(args, sort)) for sort in ("inside", "tested", "clean")
    }
    was_set = tuple(terms.value(text, draft) for text in args.set)
    if step is not None:
        done = draft.step_done(step, time=time, undone=args.undone, **seen)
        closes = args.closes or step.closes
        draft.amend(replace(done, closes=closes, set_to=was_set))
    else:
        draft.add(
            StepDone(
                id=new_id(),
                title=args.name,
                when=draft.when,
                build=draft.build().ref,
                time=time,
                set_to=was_set,
                closes=args.closes,
                undone=args.undone,
                **seen,
            )
        )
    past = goes_past(draft)
    if args.because and (past.waits or past.ticks):
        past.told(args.because)
        past.put(draft)
    asks = (past.waits or past.ticks) and sys.stdin.isatty() and not args.json
    asks = asks and not args.because
    if asks:
        tell_faults(draft)
    if asks and not asked_past(draft, past, Asking(project.root)):
        raise Refused(f"“{args.name}” is not done yet; nothing was saved")
    code = terms.save(project, draft, f"step done: {args.name}", args)
    if not asks and not args.because:
        tell_past(past)
    return code
