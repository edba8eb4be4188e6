"""`logbook machine`: a machine or hand process of this shop."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.plain.stated.restated import given, without, without_option
from logbook.records.kinds.workshop import Machine

_OF_MACHINE = {"process": ("process",), "bed": ("bed",)}
"""What may be taken away of a machine: the option that tells it, and its fact."""


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
    without_option(parser, _OF_MACHINE)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the machine, or amend the one of this name; what is not said stays."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    told = given(
        process=args.process,
        bed=tuple(terms.value(text, draft) for text in args.bed),
        set_anew=draft.when if args.set_anew else None,
    )
    told |= without(project.snapshot, Machine, args.name, args, _OF_MACHINE, told)
    draft.state(Machine, args.name, told)
    return terms.save(project, draft, f"machine: {args.name}", args)
