"""`logbook instrument`: what readings are taken with, and how good it is."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.errors import BadInput
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.workshop import Instrument
from logbook.records.sizes.limits import parse_drawn


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", help="what it is called")
    parser.add_argument("--uncertainty", help="expanded, k = 2: 0.04 mm")
    parser.add_argument("--resolution", help="smallest step it shows, 0.01 mm")
    parser.add_argument("--range", help="0 to 300 mm")
    parser.add_argument("--scale-error", help="error that grows with the scale")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the instrument, or amend the one of this name."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    span = (
        parse_drawn(args.range, project.snapshot.project.unit) if args.range else None
    )
    if span is not None and (span.lower is None or span.upper is None):
        raise BadInput(f"--range: found “{args.range}”; accepted: 0 to 300 mm")
    instrument = Instrument(
        id=new_id(),
        title=args.name,
        when=draft.when,
        range=(span.lower, span.upper) if span and span.lower and span.upper else (),
        resolution=terms.value(args.resolution, draft) if args.resolution else None,
        uncertainty=terms.value(args.uncertainty, draft) if args.uncertainty else None,
        scale_error=terms.value(args.scale_error, draft) if args.scale_error else None,
    )
    draft.state(instrument)
    return terms.save(project, draft, f"instrument: {args.name}", args)
