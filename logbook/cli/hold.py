"""`logbook hold`: a reason not to do a step yet, said by you."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.plain.stated.order import hold_arguments, stated_hold


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    hold_arguments(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the hold."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    hold = stated_hold(draft, args)
    code = terms.save(project, draft, f"hold: {hold.step.name}", args)
    if not args.json:
        for remark in draft.remarks:
            print(terms.folded(f"  {remark}"))
    return code
