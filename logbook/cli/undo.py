"""`logbook undo`: take the last entry back."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.cli.shell_clock import goes_on


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("--when", help=argparse.SUPPRESS)
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Undo the last act of this clone."""
    project = terms.opened(args)
    act = project.undo(terms.moment(args))
    clock = goes_on(project, act)
    outcome = terms.committed(project)
    if args.json:
        files = [touched.path for touched in act.files]
        terms.answer(undone=act.subject, files=files, clock=clock, **outcome)
    else:
        print(f"taken back: {act.subject}")
        if clock:
            print(clock)
        print(outcome["git"])
    return 0
