"""`logbook deviation`: a made piece that differs from its drawing."""

from __future__ import annotations

import argparse

from logbook.cli import names, terms
from logbook.records.kinds.happenings import Deviation
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Disposition


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("part", help="the part")
    parser.add_argument("text", help="what differs, in a few words")
    parser.add_argument("--dimension", default="", help="the dimension that is off")
    parser.add_argument("--wanted", help="the size as drawn")
    parser.add_argument("--found", help="the size it has")
    parser.add_argument("--place", default="", help="where on the piece")
    parser.add_argument("--piece", type=int, help="the number of the piece")
    parser.add_argument("--prose", default="", help="more, as Markdown")
    terms.blame(parser)
    names.insisting(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the deviation."""
    terms.something(args.text, "what differs")
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    part = names.part_for(args, draft, args.part)
    wanted = terms.value(args.wanted, draft) if args.wanted else None
    item = (
        names.dimension_for(
            args, draft, part, args.dimension, wanted, draft.made_to(part, args.piece)
        )
        if args.dimension
        else None
    )
    draft.add(
        Deviation(
            id=new_id(),
            title=args.text,
            prose=args.prose,
            when=draft.when,
            build=draft.build().ref,
            piece=draft.piece(part, args.piece).ref,
            part=part.ref,
            characteristic=item.ref if item else None,
            wanted=wanted or (item.nominal if item else None),
            found=terms.value(args.found, draft) if args.found else None,
            place=args.place,
            disposition=Disposition(args.do) if args.do else None,
            met_by_others=terms.BLAMES[args.met_by],
            cure=args.cure,
        )
    )
    return terms.save(project, draft, f"deviation: {args.text}", args)
