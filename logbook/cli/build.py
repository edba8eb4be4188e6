"""`logbook build`: start a build."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.errors import BadInput
from logbook.records.kinds.made_public import Release


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", nargs="?", default="", help="what to call it")
    parser.add_argument("--purpose", default="", help="what it is for")
    parser.add_argument("--of", default="", help="the release it is built from")
    parser.add_argument("--units", type=int, default=1, help="how many are made")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the build."""
    project = terms.opened(args)
    if args.units < 1:
        raise BadInput(f"--units: found {args.units}; accepted: 1 or more")
    release = project.snapshot.lookup(args.of, Release) if args.of else None
    draft = project.draft(terms.moment(args))
    build = draft.new_build(
        args.name, purpose=args.purpose, release=release, units=args.units
    )
    return terms.save(project, draft, f"build: {build.title}", args)
