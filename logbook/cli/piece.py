"""`logbook piece`: put a made piece on record."""

from __future__ import annotations

import argparse
from dataclasses import replace

from logbook.cli import names, terms
from logbook.errors import BadInput
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.states.pieces import pieces_of
from logbook.records.together.names import folded
from logbook.records.together.revisions import shown_label


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("part", help="the part, or a piece of it to say more of")
    parser.add_argument("--number", type=int, help="its number, else the next")
    parser.add_argument("--revision", default="", help="what it is made to: rev A")
    parser.add_argument("--on", default="", help="the machine it was made on")
    parser.add_argument("--set", action="append", default=[], help="nozzle=0.4 mm")
    names.insisting(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the piece; of one that is on record, what is said of it."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    snapshot = project.snapshot
    settings = dict(_setting(text) for text in args.set)
    says = args.revision or args.on or settings
    piece = names.known_piece(snapshot, args.part) if says else None
    part = snapshot.find(piece.part, Part) if piece else None
    part = part or names.part_for(args, draft, args.part)
    revision = _revision(draft, part, args.revision) if args.revision else None
    piece = piece or _new(draft, part, args.number)
    machine = names.machine_meant(snapshot, args.on).ref if args.on else None
    draft.amend(
        replace(
            piece,
            revision=revision.ref if revision else piece.revision,
            machine=machine or piece.machine,
            settings={**piece.settings, **settings},
        )
    )
    return terms.save(project, draft, f"piece: {piece.title}", args)


def _new(draft: Draft, part: Part, number: int | None) -> Piece:
    taken = {piece.number for piece in pieces_of(draft.snapshot, part)}
    number = number or max(taken, default=0) + 1
    if number in taken:
        raise BadInput(f"{part.title}-{number} is on record; accepted: another number")
    return draft.new_piece(part, number)


def _revision(draft: Draft, part: Part, said: str) -> Revision:
    """Give the revision of a part that is called so: rev A, A, gate rev A.

    Raises:
        BadInput: none is.
    """
    known = draft.revisions(part)
    bare = folded(said.strip())
    for one in known:
        if bare in map(folded, (one.title, one.label, shown_label(one), one.id)):
            return one
    which = ", ".join(shown_label(one) for one in known)
    raise BadInput(f"--revision: found “{said}”; accepted: {which} of {part.title}")


def _setting(text: str) -> tuple[str, str]:
    name, sign, value = text.partition("=")
    if not sign or not name.strip():
        raise BadInput(f"--set: found “{text}”; accepted: name=value")
    return name.strip(), value.strip()
