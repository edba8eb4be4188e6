"""`logbook step`: an operation of the order of work, or one that was carried out."""

from __future__ import annotations

import argparse
import sys
from dataclasses import replace
from typing import Any

from logbook.cli import names, terms
from logbook.cli.asking import Asking
from logbook.cli.closing import asked_past, goes_past, tell_past
from logbook.errors import Refused
from logbook.project import Project
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import Status, StepDone
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import State


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", help="the operation, “rivet the lid on”")
    parser.add_argument("--done", action="store_true", help="it was carried out")
    parser.add_argument(
        "--undone", action="store_true", help="it was taken apart again"
    )
    parser.add_argument(
        "--dropped", default="", metavar="WHY", help="it is not done any more, and why"
    )
    parser.add_argument("--number", type=int, help="its place in the order of work")
    parser.add_argument("--makes", default="", help="the part it makes")
    parser.add_argument("--uses", action="append", default=[], help="a part it takes")
    parser.add_argument("--after", action="append", default=[], help="an earlier step")
    parser.add_argument("--closes", action="store_true", help="it cannot be undone")
    parser.add_argument("--inside", action="append", default=[], help="must be inside")
    parser.add_argument(
        "--tested", action="append", default=[], help="must work before"
    )
    parser.add_argument("--clean", action="append", default=[], help="must be clean")
    parser.add_argument("--tool", action="append", default=[], help="a tool")
    parser.add_argument("--instead", action="append", default=[], help="a substitute")
    parser.add_argument("--process", action="append", default=[], help="riveting…")
    parser.add_argument(
        "--set",
        action="append",
        default=[],
        help="what is set for it, “drill 3.3 mm”; with --done as it was set, 3.3 mm",
    )
    parser.add_argument("--accept", default="", help="how to tell that it is right")
    parser.add_argument("--time", help="it takes, or took, 25 min")
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
    steps = project.snapshot.all(Step)
    numbers = [step.number for step in steps]
    known = project.snapshot.named(args.name, Step)
    number = known[0].number if known else max(numbers, default=0) + 1
    step = Step(
        id=new_id(),
        title=args.name,
        when=draft.when,
        number=args.number if args.number is not None else number,
        makes=names.new_part_for(args, draft, args.makes).ref if args.makes else None,
        uses=tuple(names.new_part_for(args, draft, name).ref for name in args.uses),
        after=tuple(project.snapshot.lookup(name, Step).ref for name in args.after),
        closes=args.closes,
        inside=tuple(args.inside),
        tested=tuple(args.tested),
        clean=tuple(args.clean),
        tools=tuple(args.tool),
        substitutes=tuple(args.instead),
        process=tuple(args.process),
        set_to=tuple(args.set),
        accept=args.accept,
        time=terms.value(args.time, draft) if args.time else None,
    )
    terms.add_or_amend(draft, step)
    return terms.save(project, draft, f"step: {args.name}", args)


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
        sort: tuple(getattr(args, sort)) for sort in ("inside", "tested", "clean")
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
    asks = (past.waits or past.ticks) and sys.stdin.isatty() and not args.json
    if asks and not asked_past(draft, past, Asking(project.root)):
        raise Refused(f"“{args.name}” is not done yet; nothing was saved")
    code = terms.save(project, draft, f"step done: {args.name}", args)
    if not asks:
        tell_past(past)
    return code
