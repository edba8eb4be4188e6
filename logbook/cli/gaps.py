"""`logbook gaps`: what each gap comes to, and sizes of what is made last."""

from __future__ import annotations

import argparse

from logbook.advice.advisor import advise
from logbook.cli import telling, terms
from logbook.records.kinds.workshop import Build


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", nargs="?", default="", help="one gap, by its name")
    telling.build_option(parser)
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Say what each gap comes to; exit code 8 where one cannot be worked out."""
    project = terms.opened(args)
    build = telling.meant_build(args, project.snapshot)
    told = advise(project.snapshot, build or project.at_hand)
    wanted = args.name.casefold()
    others = {b.id for b in project.snapshot.all(Build)} if build else set()
    found = [
        one
        for one in told.of("gaps")
        if (not wanted or one.about.name.casefold() == wanted)
        and one.key.rpartition(" ")[2] not in others
    ]
    return telling.tell(args, found, told, "no gap is on record")
