"""`logbook instrument`: what readings are taken with, and how good it is."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.errors import BadInput
from logbook.plain.stated.restated import given, without, without_option
from logbook.records.kinds.workshop import Instrument
from logbook.records.sizes.limits import parse_drawn

_OF_INSTRUMENT = {
    "uncertainty": ("uncertainty",), "resolution": ("resolution",),
    "range": ("range",), "scale-error": ("scale_error",),
}  # fmt: skip
"""What may be taken away of an instrument: the option that tells it, and its fact."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", help="what it is called")
    parser.add_argument("--uncertainty", help="expanded, k = 2: 0.04 mm")
    parser.add_argument("--resolution", help="smallest step it shows, 0.01 mm")
    parser.add_argument("--range", help="0 to 300 mm")
    parser.add_argument("--scale-error", help="error that grows with the scale")
    without_option(parser, _OF_INSTRUMENT)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the instrument, or amend the one of this name; what is not said stays."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    span = (
        parse_drawn(args.range, project.snapshot.project.unit) if args.range else None
    )
    if span is not None and (span.lower is None or span.upper is None):
        raise BadInput(f"--range: found “{args.range}”; accepted: 0 to 300 mm")
    told = given(
        range=(span.lower, span.upper) if span and span.lower and span.upper else (),
        resolution=terms.value(args.resolution, draft) if args.resolution else None,
        uncertainty=terms.value(args.uncertainty, draft) if args.uncertainty else None,
        scale_error=terms.value(args.scale_error, draft) if args.scale_error else None,
    )
    told |= without(project.snapshot, Instrument, args.name, args, _OF_INSTRUMENT, told)
    draft.state(Instrument, args.name, told)
    return terms.save(project, draft, f"instrument: {args.name}", args)
