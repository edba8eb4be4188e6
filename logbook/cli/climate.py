"""`logbook climate`: what heat and moist air do, over the rooms it will stand in."""

from __future__ import annotations

import argparse

from logbook.advice.advisor import advise, strongest_first
from logbook.cli import telling, terms


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("part", nargs="?", default="", help="one part, by its name")
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Say what softens and what moves, what asks for something first."""
    project = terms.opened(args)
    told = advise(project.snapshot)
    found = strongest_first((*told.of("heat"), *told.of("wood")))
    wanted = args.part.casefold()
    found = tuple(
        one for one in found if not wanted or one.inputs[0].name.casefold() == wanted
    )
    return telling.tell(
        args, found, told, "no temperature and no wooden part is on record"
    )
