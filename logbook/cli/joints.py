"""`logbook joints`: what each joint comes to in the worst case."""

from __future__ import annotations

import argparse
from collections.abc import Iterator

from logbook.advice.advisor import advise
from logbook.advice.ground.advice import Advice
from logbook.cli import telling, terms


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", nargs="?", default="", help="one joint, by its name")
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Say what each joint comes to; exit code 8 where one cannot be worked out."""
    project = terms.opened(args)
    told = advise(project.snapshot)
    wanted = args.name.casefold()
    found = [
        one
        for one in sorted(told.of("joints"), key=lambda one: not one.open)
        if not wanted or one.about.name.casefold() == wanted
    ]
    return telling.tell(args, found, told, "no joint is on record", _worked_out)


def _worked_out(one: Advice) -> Iterator[str]:
    """Give a joint with its figures, what they take for granted, formula and source."""
    yield from telling.sentence(one)
    for number in one.numbers:
        yield f"    {number.name:<9} {number.shown:>9}   {number.meaning}"
    yield from (f"    {line}" for line in one.assumed)
    yield f"    {one.formula}; {'; '.join(one.sources)}"
