"""`logbook hold`: a reason not to do a step yet, said by you."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.records.kinds.assembling import Hold, Step
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Grade


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("step", help="the step that waits")
    parser.add_argument("because", help="the reason")
    parser.add_argument("--until", default="", help="what lifts it")
    parser.add_argument(
        "--grade", choices=[grade.value for grade in Grade], default="wait"
    )
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the hold."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    step = project.snapshot.lookup(args.step, Step)
    draft.add(
        Hold(
            id=new_id(),
            title=f"{step.title}: {args.because}",
            when=draft.when,
            step=step.ref,
            grade=Grade(args.grade),
            until=args.until,
            because=args.because,
        )
    )
    return terms.save(project, draft, f"hold: {step.title}", args)
