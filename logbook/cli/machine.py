"""`logbook machine`: a machine or hand process of this shop."""

from __future__ import annotations

import argparse
from dataclasses import replace

from logbook.cli import terms
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.workshop import Machine


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", help="what it is called")
    parser.add_argument("--process", default="", help="folding, sawing, printing…")
    parser.add_argument(
        "--bed", action="append", default=[], help="largest size it takes"
    )
    parser.add_argument(
        "--set-anew",
        action="store_true",
        help="it was set or repaired: its figures begin anew with the next piece",
    )
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the machine, or amend the one of this name; what is not said stays."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    named = project.snapshot.named(args.name, Machine)
    known = named[0] if named else Machine(id=new_id(), title=args.name)
    bed = tuple(terms.value(text, draft) for text in args.bed)
    machine = replace(
        known,
        when=draft.when,
        process=args.process or known.process,
        bed=bed or known.bed,
        set_anew=draft.when if args.set_anew else known.set_anew,
    )
    draft.state(machine)
    return terms.save(project, draft, f"machine: {args.name}", args)
