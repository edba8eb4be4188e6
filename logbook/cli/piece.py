"""`logbook piece`: put a made piece on record."""

from __future__ import annotations

import argparse
from dataclasses import replace

from logbook.cli import names, terms
from logbook.errors import BadInput
from logbook.records.states.pieces import pieces_of


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("part", help="the part")
    parser.add_argument("--number", type=int, help="its number, else the next")
    parser.add_argument("--on", default="", help="the machine it was made on")
    parser.add_argument("--set", action="append", default=[], help="nozzle=0.4 mm")
    names.insisting(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the piece."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    part = names.part_for(args, draft, args.part)
    taken = {piece.number for piece in pieces_of(project.snapshot, part)}
    number = args.number or max(taken, default=0) + 1
    if number in taken:
        raise BadInput(f"{part.title}-{number} is on record; accepted: another number")
    piece = draft.new_piece(part, number)
    machine = names.machine_meant(project.snapshot, args.on).ref if args.on else None
    settings = dict(_setting(text) for text in args.set)
    draft.amend(replace(piece, machine=machine, settings=settings))
    return terms.save(project, draft, f"piece: {piece.title}", args)


def _setting(text: str) -> tuple[str, str]:
    name, sign, value = text.partition("=")
    if not sign or not name.strip():
        raise BadInput(f"--set: found “{text}”; accepted: name=value")
    return name.strip(), value.strip()
