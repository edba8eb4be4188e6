"""`logbook joint`: the layers a fastener goes through, from the head to the nut."""

from __future__ import annotations

import argparse

from logbook.cli import names, terms
from logbook.plain.stated.joints import joint_arguments, stated_joint


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    joint_arguments(parser)
    names.insisting(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the joint, or amend the one of this name."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    stated_joint(draft, args)
    return terms.save(project, draft, f"joint: {args.name}", args)
