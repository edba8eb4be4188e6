"""`logbook joints`: what each joint comes to in the worst case."""

from __future__ import annotations

import argparse

from logbook.advice.advisor import advise
from logbook.advice.ground.advice import STANDING
from logbook.cli import telling, terms


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", nargs="?", default="", help="one joint, by its name")
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Say what each joint comes to, what asks for something first."""
    project = terms.opened(args)
    told = advise(project.snapshot)
    wanted = args.name.casefold()
    found = [
        one
        for one in sorted(told.of("joints"), key=lambda one: not one.open)
        if not wanted or one.about.name.casefold() == wanted
    ]
    if args.json:
        telling.answer(found, told)
        return 0
    for one in found:
        print(f"{one.grade.value}: {one.statement}")
        for number in one.numbers:
            print(f"    {number.name:<9} {number.shown:>9}   {number.meaning}")
        for line in one.assumed:
            print(f"    {line}")
        print(f"    {one.formula}; {'; '.join(one.sources)}")
    print(STANDING if found else "no joint is on record")
    return 0
