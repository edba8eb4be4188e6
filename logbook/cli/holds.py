"""`logbook holds`: what waits, what to check before it closes, what to bear in mind."""

from __future__ import annotations

import argparse

from logbook.advice.advisor import advise, strongest_first
from logbook.cli import telling, terms


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument(
        "--all", action="store_true", help="remarks and passed ones too"
    )
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """List the holds, the strongest first; exit code 8 where one cannot be judged."""
    project = terms.opened(args)
    told = advise(project.snapshot, project.at_hand)
    found = strongest_first(told.advice) if args.all else told.open
    return telling.tell_where_one_is(
        args, project, found, told, "nothing waits", telling.sentence
    )
