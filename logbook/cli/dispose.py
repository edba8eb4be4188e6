"""`logbook dispose`: what to do with a piece, and which entry that answers."""

from __future__ import annotations

import argparse

from logbook.cli import names, terms
from logbook.errors import BadInput
from logbook.plain.drafts.remarks import decides_on
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.words import Disposition
from logbook.records.kinds.workshop import Piece
from logbook.records.making.disposing import dispose


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("piece", help="the piece, or the deviation or failure, by name")
    parser.add_argument("do", choices=terms.DISPOSITIONS, help="what to do with it")
    parser.add_argument("--because", "--why", default="", help="the reason")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the disposition."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    found = names.meant_of(project.snapshot, args.piece, Piece, Deviation, Failure)
    if not isinstance(found, Piece | Deviation | Failure):
        raise BadInput(
            f"“{args.piece}” is no piece; accepted: a piece, a deviation or a failure"
        )
    dispose(draft, found, Disposition(args.do), args.because)
    remarks = [] if args.json else [*decides_on(draft)]
    code = terms.save(project, draft, f"{args.do}: {found.title}", args)
    for remark in remarks:  # what it answers is true only once it is saved
        print(f"  {remark}")
    return code
