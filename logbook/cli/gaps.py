"""`logbook gaps`: what each gap comes to, and sizes of what is made last."""

from __future__ import annotations

import argparse

from logbook.advice.advice import STANDING, as_facts
from logbook.advice.advisor import advise
from logbook.cli import terms
from logbook.errors import ProblemsFound


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", nargs="?", default="", help="one gap, by its name")
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Say what each gap comes to; exit code 8 where one cannot be worked out."""
    project = terms.opened(args)
    told = advise(project.snapshot)
    wanted = args.name.casefold()
    found = [
        one
        for one in told.of("gaps")
        if not wanted or one.about.name.casefold() == wanted
    ]
    if args.json:
        terms.answer(
            advice=[as_facts(one) for one in found],
            problems=[str(one) for one in told.problems],
        )
        return ProblemsFound.exit_code if told.problems else 0
    for one in found:
        print(f"{one.grade.value}: {one.statement}")
        for line in one.assumed:
            print(f"    {line}")
    for problem in told.problems:
        print(problem)
    print(STANDING if found else "no gap is on record")
    return ProblemsFound.exit_code if told.problems else 0
