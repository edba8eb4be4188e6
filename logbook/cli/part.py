"""`logbook part`: put a part on record, or say more about one that is there."""

from __future__ import annotations

import argparse
from dataclasses import replace
from typing import Any

from logbook.cli import terms
from logbook.errors import BadInput
from logbook.records.limits import parse_drawn
from logbook.records.making import Draft
from logbook.records.model import Part
from logbook.records.words import Source

SOURCES = {"made": Source.MADE, "bought": Source.BOUGHT, "service": Source.SERVICE}


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", help="what the part is called")
    parser.add_argument("--source", choices=sorted(SOURCES), help="who makes it")
    parser.add_argument("--process", action="append", help="folding, sawing, printing…")
    parser.add_argument("--material", help="material, as you would ask for it")
    parser.add_argument("--thickness", help="of its stock, 2.0 mm or 18 ga steel")
    parser.add_argument(
        "--dimension", action="append", default=[], help="length=179.7 ±0.1, as drawn"
    )
    parser.add_argument("--critical", action="append", default=[], help="a dimension")
    parser.add_argument("--also", action="append", help="another name for it")
    parser.add_argument("--wears", action="store_true", help="it wears out in use")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Make the part, or amend it."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    known = project.snapshot.named(args.name, Part)
    part = draft.part(args.name)
    more: dict[str, Any] = {}
    if args.source:
        more["source"] = SOURCES[args.source]
    if args.process:
        more["process"] = tuple(args.process)
    if args.material is not None:
        more["material"] = args.material
    if args.thickness:
        more["thickness"] = terms.value(args.thickness, draft)
    if args.also:
        more["aliases"] = (*part.aliases, *args.also)
    if args.wears:
        more["wears"] = True
    if more:
        draft.amend(replace(part, **more))
    for text in args.dimension:
        _dimension(draft, part, text, args.critical)
    verb = "amended" if known else "new"
    return terms.save(project, draft, f"part {verb}: {args.name}", args)


def _dimension(draft: Draft, part: Part, text: str, critical: list[str]) -> None:
    name, sign, size = text.partition("=")
    if not sign or not name.strip():
        raise BadInput(f"--dimension: found “{text}”; accepted: length=179.7 ±0.1")
    drawn = parse_drawn(size, draft.snapshot.project.unit)
    item = draft.characteristic(part, name.strip())
    draft.amend(
        replace(
            item,
            nominal=drawn.nominal,
            lower_limit=drawn.lower,
            upper_limit=drawn.upper,
            critical=item.critical or name.strip() in critical,
        )
    )
