"""`logbook failure`: what broke, under which conditions, why, and what cured it."""

from __future__ import annotations

import argparse

from logbook.cli import names, terms
from logbook.records.kinds.happenings import Cause, Conditions, Failure
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import CauseStatus, Disposition
from logbook.records.making.drafts import Draft


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("part", help="the part")
    parser.add_argument("text", help="what happened")
    parser.add_argument("--where", default="", help="hole, edge, layer")
    parser.add_argument("--cause", default="", help="why, as far as you know")
    sure = parser.add_mutually_exclusive_group()
    sure.add_argument("--proven", action="store_true", help="the cause is proven")
    sure.add_argument("--guessed", action="store_true", help="the cause is a guess")
    parser.add_argument("--piece", type=int, help="the number of the piece")
    parser.add_argument("--temperature", help="at the place, 58 °C")
    parser.add_argument("--room", help="of the room, 22 °C")
    parser.add_argument("--after", help="time in use, 2 h")
    parser.add_argument("--load", default="", help="what it carried")
    parser.add_argument("--prose", default="", help="more, as Markdown")
    terms.blame(parser)
    names.insisting(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the failure."""
    terms.something(args.text, "what happened")
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    part = names.part_for(args, draft, args.part)
    draft.add(
        Failure(
            id=new_id(),
            title=args.text,
            prose=args.prose,
            when=draft.when,
            build=draft.build().ref,
            piece=draft.piece(part, args.piece).ref,
            part=part.ref,
            where=args.where,
            cause=_cause(args),
            conditions=_conditions(args, draft),
            cure=args.cure,
            disposition=Disposition(args.do) if args.do else None,
            met_by_others=terms.BLAMES[args.met_by],
        )
    )
    return terms.save(project, draft, f"failure: {args.text}", args)


def _cause(args: argparse.Namespace) -> Cause | None:
    """Give the cause, said as a fact unless it was said how sure it is."""
    if not args.cause:
        return None
    if args.proven:
        return Cause(said=args.cause, status=CauseStatus.PROVEN)
    status = CauseStatus.GUESSED if args.guessed else CauseStatus.SAID
    return Cause(said=args.cause, status=status)


def _conditions(args: argparse.Namespace, draft: Draft) -> Conditions | None:
    made = Conditions(
        temperature=terms.value(args.temperature, draft) if args.temperature else None,
        room=terms.value(args.room, draft) if args.room else None,
        after=terms.value(args.after, draft) if args.after else None,
        load=args.load,
    )
    return made if made != Conditions() else None
