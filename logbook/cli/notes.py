"""`logbook notes`: write the builder notes."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.cli.pages import paper, press_of, stale_of
from logbook.publish.notes.notes import PLACE


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("--print", action="store_true", help="print, write no file")
    paper(parser)
    parser.add_argument("--when", help=argparse.SUPPRESS)
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Write the notes and let git take them."""
    project = terms.opened(args)
    text, files = press_of(project, args).notes()
    if args.print:
        print(text, end="")
        return 0
    project.write_files(files, "builder notes", terms.moment(args))
    outcome = terms.committed(project)
    stale = stale_of(project)
    if args.json:
        terms.answer(path=PLACE, paths=list(files), stale=stale, **outcome)
    else:
        print("\n".join([*files, outcome["git"], *stale]))
    return 0
