"""`logbook undo`: take the last entry back."""

from __future__ import annotations

import argparse

from logbook.cli import terms


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("--when", help=argparse.SUPPRESS)
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Undo the last act of this clone."""
    project = terms.opened(args)
    act = project.undo(terms.moment(args))
    outcome = terms.committed(project)
    if args.json:
        terms.answer(undone=act.subject, files=[f.path for f in act.files], **outcome)
    else:
        print(f"taken back: {act.subject}\n{outcome['git']}")
    return 0
