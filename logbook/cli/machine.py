"""`logbook machine`: a machine or hand process of this shop."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.records.ids import new_id
from logbook.records.workshop import Machine


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", help="what it is called")
    parser.add_argument("--process", default="", help="folding, sawing, printing…")
    parser.add_argument(
        "--bed", action="append", default=[], help="largest size it takes"
    )
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the machine, or amend the one of this name."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    machine = Machine(
        id=new_id(),
        title=args.name,
        when=draft.when,
        process=args.process,
        bed=tuple(terms.value(text, draft) for text in args.bed),
    )
    terms.add_or_amend(draft, machine)
    return terms.save(project, draft, f"machine: {args.name}", args)
