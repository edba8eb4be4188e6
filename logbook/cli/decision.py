"""`logbook decision`: what was decided, and why."""

from __future__ import annotations

import argparse

from logbook.cli import names, terms
from logbook.records.kinds.happenings import Decision
from logbook.records.kinds.ids import Ref, new_id


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("text", nargs="+", help="what was decided")
    parser.add_argument("--part", default="", help="the part it is about")
    parser.add_argument("--because", "--why", default="", help="the reason")
    parser.add_argument("--instead-of", default="", help="what was given up")
    parser.add_argument("--answers", default="", help="the entry that led to it, by id")
    parser.add_argument("--prose", default="", help="more, as Markdown")
    names.insisting(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the decision."""
    names.part_and_words(args, "what was decided")
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    led: tuple[Ref, ...] = ()
    if args.answers:
        reason = names.meant_of(project.snapshot, args.answers, *names.REASONS)
        led = (reason.ref,)
    draft.add(
        Decision(
            id=new_id(),
            title=args.text,
            prose=args.prose,
            when=draft.when,
            build=draft.build().ref,
            about=led,
            part=names.part_for(args, draft, args.part).ref if args.part else None,
            because=args.because,
            instead_of=args.instead_of,
        )
    )
    return terms.save(project, draft, f"decision: {args.text}", args)
