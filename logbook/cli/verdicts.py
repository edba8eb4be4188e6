"""`logbook verdicts`: what each failure came to, and what the pieces differ in."""

from __future__ import annotations

import argparse

from logbook.advice.faults.verdicts import outcome
from logbook.advice.faults.verdicts_told import told
from logbook.advice.ground.advice import STANDING, as_facts
from logbook.cli import names, terms
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Failure
from logbook.records.together.references import part_of


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("part", nargs="?", default="", help="failures of this part")
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Say the verdicts, those first that are not complete."""
    project = terms.opened(args)
    snapshot = project.snapshot
    part = names.meant(snapshot, args.part, Part) if args.part else None
    found = [
        outcome(snapshot, failure)
        for failure in snapshot.all(Failure)
        if part is None or part_of(snapshot, failure) is part
    ]
    found.sort(key=lambda one: not one.open)
    if args.json:
        terms.answer(
            advice=[{**as_facts(told(one)), "open": one.open} for one in found]
        )
        return 0
    for one in found:
        said = told(one)
        print(said.statement)
        for line in said.assumed:
            print(f"    {line}")
        if one.open:
            print(f"    no verdict yet, it needs {' and '.join(said.changes)}")
    print(STANDING if found else "no failure is on record")
    return 0
