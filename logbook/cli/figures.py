"""`logbook figures`: what each process does here, and what to set next time."""

from __future__ import annotations

import argparse

from logbook.advice.advisor import advise
from logbook.advice.ground.advice import STANDING, as_facts
from logbook.cli import terms


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Say the shop's own figures; they change no published file or nominal."""
    project = terms.opened(args)
    found = advise(project.snapshot, project.at_hand).of("figures")
    if args.json:
        terms.answer(advice=[as_facts(one) for one in found])
        return 0
    for one in found:
        print(one.statement)
        for number in one.numbers:
            print(f"    {number.name:<14} {number.shown:<12} {number.meaning}")
        for line in (*one.assumed, *one.sources):
            print(f"    {line}")
    print(STANDING if found else "no process has a measured piece yet")
    return 0
