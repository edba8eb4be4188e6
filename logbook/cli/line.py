"""`logbook line`: a line of the parts list, so many of a part, at named places."""

from __future__ import annotations

import argparse
import shlex
from dataclasses import replace

from logbook.cli import names, terms
from logbook.errors import BadInput
from logbook.plain.stated.restated import given, without, without_option
from logbook.plain.stated.so_many import ACCEPTED, so_many
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Source
from logbook.records.making.bought import made_by_nothing
from logbook.records.making.drafts import Draft

_OF_LINE = {
    "place": ("places",), "spare": ("spare",), "bought-as": ("bought_as",),
    "price": ("price",), "amount": ("amount",),
    "critical": ("critical",), "substitute": ("substitutes",),
}  # fmt: skip
"""What may be taken away of a line: the option that tells it, and its fact."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("part", help="the part")
    parser.add_argument(
        "quantity",
        nargs="?",
        help="pieces, not packs: 4; or how much: 1.5 m, or 2 x 400 mm; of a line on "
        "the list only where it changes",
    )
    parser.add_argument("--into", default="", help="the assembly; else the whole thing")
    parser.add_argument("--place", action="append", default=[], help="left, right…")
    parser.add_argument("--spare", type=int, help="pieces to have over")
    parser.add_argument("--amount", default="", help="how much each is: 1.5 m of wire")
    parser.add_argument("--bought-as", default="", help="designation, pack, supplier")
    parser.add_argument("--price", help="of one piece, 0.12 EUR")
    parser.add_argument("--critical", default="", help="what of it must not change")
    parser.add_argument(
        "--substitute",
        action="append",
        default=[],
        help="what can stand in, and what came of it: “birch ply: works”",
    )
    without_option(parser, _OF_LINE)
    names.insisting(parser)
    terms.logging(parser)


def _as_bought(draft: Draft, part: Part, bought_as: str) -> tuple[Part, list[str]]:
    """Give the part as bought, where it is told so and nothing of it was made here."""
    if not bought_as or not made_by_nothing(draft.snapshot, part):
        return part, []
    bought = draft.amend(replace(part, source=Source.BOUGHT))
    if part.id not in draft.snapshot:
        return bought, []
    made = f"logbook part {shlex.quote(part.title)} --source made"
    return bought, [f"{part.title} is bought from now on; if it is made: {made}"]


def run(args: argparse.Namespace) -> int:
    """Save the line, or amend the one this part has in that assembly.

    A line on the list keeps what is not said.
    """
    if (args.spare or 0) < 0:
        raise BadInput("spare: found a negative number; accepted: 0 or more pieces")
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    number, amount = so_many(args.quantity or "", args.amount)
    part = names.new_part_for(args, draft, args.part)
    assembly = names.new_part_for(args, draft, args.into) if args.into else None
    if assembly is not None and not assembly.assembly:
        assembly = draft.amend(replace(assembly, assembly=True))
    part, bought = _as_bought(draft, part, args.bought_as)
    title = f"{part.title} in {assembly.title if assembly else 'the whole'}"
    if number is None and not project.snapshot.named(title, Line):
        raise BadInput(f"how many of the {part.title}? accepted: {ACCEPTED}")
    told = given(
        part=part.ref,
        assembly=assembly.ref if assembly else None,
        quantity=number,
        amount=amount,
        spare=args.spare,
        places=tuple(args.place),
        bought_as=args.bought_as,
        price=terms.value(args.price, draft) if args.price else None,
        critical=args.critical,
        substitutes=tuple(args.substitute),
    )
    told |= without(project.snapshot, Line, title, args, _OF_LINE, told)
    line = draft.state(Line, title, told)
    return terms.save(
        project,
        draft,
        f"list: {line.quantity} × {part.title}",
        args,
        tell=lambda saved: [*terms.said(saved, draft), *bought],
    )
