"""`logbook gap`: a closing dimension over named dimensions, with its limits."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.plain.stated.order import gap_arguments, stated_fit


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    gap_arguments(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the gap, or amend the one of this name."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    stated_fit(draft, args)
    return terms.save(project, draft, f"gap: {args.name}", args)
