"""`logbook machine`: a machine or hand process of this shop."""

from __future__ import annotations

import argparse
from typing import Any

from logbook.cli import terms
from logbook.cli.whose_build import builder_here
from logbook.errors import Refused
from logbook.plain.stated.restated import given, without, without_option
from logbook.project import Project
from logbook.records.kinds.workshop import Machine
from logbook.records.making.drafts import Draft
from logbook.records.together.whose_shop import same_builder

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
        **(_set_anew(project, draft, args.name) if args.set_anew else {}),
    )
    told |= without(project.snapshot, Machine, args.name, args, _OF_MACHINE, told)
    draft.state(Machine, args.name, told)
    return terms.save(project, draft, f"machine: {args.name}", args)


def _set_anew(project: Project, draft: Draft, name: str) -> dict[str, Any]:
    """Give when a machine was set anew, and in whose shop: of others it tells nothing.

    Raises:
        Refused: another shop set its own anew under this name; that would be lost.
    """
    by = builder_here(project)
    for known in project.snapshot.named(name, Machine):
        other = known.set_anew_by
        if known.set_anew and other and same_builder(other) != same_builder(by):
            raise Refused(
                f"{known.title} was set anew by {other} on {known.set_anew:%Y-%m-%d}, "
                "whose figures begin there; accepted: a machine of your own, by "
                "another name, and “piece NAME --on MACHINE” for what is made on it"
            )
    return {"set_anew": draft.when, "set_anew_by": by}
