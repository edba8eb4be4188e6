"""`logbook count`: pieces really used, scrapped and left over in a build."""

from __future__ import annotations

import argparse

from logbook.cli import names, terms
from logbook.errors import BadInput
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Count
from logbook.records.kinds.ids import new_id


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("part", help="the part")
    parser.add_argument("--used", type=int, default=0, help="pieces, not packs")
    parser.add_argument("--scrapped", type=int, default=0, help="pieces spoiled")
    parser.add_argument("--left", type=int, default=0, help="pieces left over")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the count; the last one of a build is what counts."""
    numbers = (args.used, args.scrapped, args.left)
    if min(numbers) < 0 or not any(numbers):
        raise BadInput(
            f"found {args.used} used, {args.scrapped} scrapped, {args.left} left; "
            "accepted: whole numbers from 0, one of them above 0"
        )
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    part = names.meant(project.snapshot, args.part, Part)
    draft.add(
        Count(
            id=new_id(),
            title=f"{part.title}: {args.used} used, {args.scrapped} scrapped, "
            f"{args.left} left over",
            when=draft.when,
            build=draft.build().ref,
            part=part.ref,
            used=args.used,
            scrapped=args.scrapped,
            spare=args.left,
        )
    )
    return terms.save(project, draft, f"count: {part.title}", args)
