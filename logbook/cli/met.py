"""`logbook met`: would another builder meet this? answered for a kept entry."""

from __future__ import annotations

import argparse
from dataclasses import replace

from logbook.cli import names, terms
from logbook.errors import BadInput


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("entry", help="the deviation, failure or decision")
    parser.add_argument(
        "by",
        choices=sorted(terms.BLAMES),
        help="drawing: whoever builds it; piece: only this one; machine: only mine",
    )
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the entry with its answer; nothing else of it is changed."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    entry = names.meant_of(project.snapshot, args.entry, *names.REASONS)
    if not isinstance(entry, names.REASONS):
        raise BadInput(
            f"“{entry.title}” has no fault to put down; accepted: a deviation, a "
            "failure or a decision"
        )
    by = terms.BLAMES[args.by]
    draft.amend(replace(entry, met_by_others=by))
    return terms.save(project, draft, f"met by {by.value}: {entry.title}", args)
