"""`logbook stock`: material as bought: the size it was sold by, the size it has."""

from __future__ import annotations

import argparse
from dataclasses import replace

from logbook.cli import names, terms
from logbook.errors import BadInput
from logbook.plain.stated.restated import given, without, without_option
from logbook.records.kinds.design import Part
from logbook.records.kinds.workshop import Stock

_OF_STOCK = {
    "material": ("material",), "bought-as": ("bought_as",), "measured": ("measured",),
    "size": ("size",), "price": ("price",), "lot": ("lot",), "grain": ("grain",),
}  # fmt: skip
"""What may be taken away of a stock: the option that tells it, and its fact."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", help="what it is called, “2 mm sheet”")
    parser.add_argument("--material", default="", help="5052-H32, beech…")
    parser.add_argument("--bought-as", help="the size it was sold by, 6 mm")
    parser.add_argument("--measured", help="the size it has, 1/4 in")
    parser.add_argument("--size", action="append", default=[], help="400 mm, each side")
    parser.add_argument("--pieces", type=int, help="how many are left")
    parser.add_argument("--price", help="18.50 EUR")
    parser.add_argument("--lot", default="", help="lot or delivery")
    parser.add_argument("--grain", default="", help="which way grain or rolling runs")
    parser.add_argument("--for", dest="part", default="", help="the part made of it")
    without_option(parser, _OF_STOCK)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the stock, or amend the one of this name; what is not said stays."""
    if (args.pieces or 0) < 0:
        raise BadInput("--pieces: found a negative number; accepted: 0 or more")
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    told = given(
        material=args.material,
        bought_as=terms.value(args.bought_as, draft) if args.bought_as else None,
        measured=terms.value(args.measured, draft) if args.measured else None,
        size=tuple(terms.value(text, draft) for text in args.size),
        pieces=args.pieces,
        price=terms.value(args.price, draft) if args.price else None,
        lot=args.lot,
        grain=args.grain,
    )
    told |= without(project.snapshot, Stock, args.name, args, _OF_STOCK, told)
    stock = draft.state(Stock, args.name, told)
    if args.part:
        part = names.meant(project.snapshot, args.part, Part)
        draft.amend(replace(part, stock=stock.ref))
    return terms.save(project, draft, f"stock: {args.name}", args)
