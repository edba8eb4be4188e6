"""`logbook notes`: write the builder notes."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.publish.errata.stale import stale_pages
from logbook.publish.html import pictures_from
from logbook.publish.notes.notes import PLACE, write_notes
from logbook.publish.sheet.sheet import PAPERS
from logbook.publish.whole_page import Printed, page


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("--print", action="store_true", help="print, write no file")
    parser.add_argument("--paper", choices=sorted(PAPERS), default="A4")
    parser.add_argument("--when", help=argparse.SUPPRESS)
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Write the notes and let git take them."""
    project = terms.opened(args)
    text = write_notes(project.snapshot, project.own_templates)
    if args.print:
        print(text, end="")
        return 0
    name = project.snapshot.project.title
    made = page(
        text,
        title=f"{name}: builder notes",
        printed=Printed(
            f"{name}, builder notes: one builder's record.", PAPERS[args.paper]
        ),
        picture=pictures_from(project.root, (project.root / PLACE).parent),
        own_templates=project.own_templates,
    )
    beside = f"{PLACE.removesuffix('.md')}.html"
    files = {PLACE: text.encode(), beside: made.encode()}
    project.write_files(files, "builder notes", terms.moment(args))
    outcome = terms.committed(project)
    stale = list(stale_pages(project.snapshot, project.root, project.own_templates))
    if args.json:
        terms.answer(path=PLACE, paths=list(files), stale=stale, **outcome)
    else:
        print("\n".join([*files, outcome["git"], *stale]))
    return 0
