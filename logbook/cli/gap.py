"""`logbook gap`: a closing dimension over named dimensions, with its limits."""

from __future__ import annotations

import argparse
from dataclasses import replace

from logbook.cli import terms
from logbook.records.kinds.assembling import Step
from logbook.records.making.gaps import stated_gap
from logbook.records.sizes.limits import parse_drawn


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", help="what the gap is called")
    parser.add_argument("formula", help="base.opening - crossbar.length")
    parser.add_argument("--limits", help="0.1 to 0.5")
    parser.add_argument(
        "--last", default="", help="made last, to suit: crossbar.length"
    )
    parser.add_argument(
        "--one-instrument", action="store_true", help="reads both sides"
    )
    parser.add_argument("--setup-error", help="shared by what one setup made")
    parser.add_argument("--coating", help="thickness on one face")
    parser.add_argument("--coated-faces", type=int, default=0, help="faces in the gap")
    parser.add_argument("--chance", help="wanted chance of landing, 95 %%")
    parser.add_argument("--step", default="", help="the step it matters in")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the gap, or amend the one of this name."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    unit = project.snapshot.project.unit
    wanted = parse_drawn(args.limits, unit) if args.limits else None
    gap = replace(
        stated_gap(draft, args.name, args.formula, wanted, args.last),
        one_instrument=args.one_instrument,
        setup_error=terms.value(args.setup_error, draft) if args.setup_error else None,
        coating=terms.value(args.coating, draft) if args.coating else None,
        coated_faces=args.coated_faces,
        chance=terms.value(args.chance, draft) if args.chance else None,
        step=project.snapshot.lookup(args.step, Step).ref if args.step else None,
    )
    terms.add_or_amend(draft, gap)
    return terms.save(project, draft, f"gap: {args.name}", args)
