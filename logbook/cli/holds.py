"""`logbook holds`: what waits, what to check before it closes, what to bear in mind."""

from __future__ import annotations

import argparse

from logbook.advice.advisor import advise, strongest_first
from logbook.advice.ground.advice import STANDING
from logbook.cli import telling, terms


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument(
        "--all", action="store_true", help="remarks and passed ones too"
    )
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """List the holds, the strongest first."""
    project = terms.opened(args)
    told = advise(project.snapshot)
    found = strongest_first(told.advice) if args.all else told.open
    if args.json:
        telling.answer(found, told)
        return 0
    for one in found:
        passed = f"  (went past it: {one.passed})" if one.passed else ""
        print(f"{one.grade.value}: {one.statement}{passed}")
    for problem in told.problems:
        print(problem)
    print(STANDING if found else "nothing waits")
    return 0
