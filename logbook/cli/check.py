"""`logbook check`: what cannot be read, does not resolve, or is not decided."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.errors import ProblemsFound
from logbook.records.state import undisposed


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """List the problems; exit code 8 when there are any."""
    project = terms.opened(args)
    problems = project.snapshot.problems
    undecided = undisposed(project.snapshot)
    waiting, lost = project.waiting(), project.lost()
    if args.json:
        terms.answer(
            records=len(project.snapshot),
            problems=[str(problem) for problem in problems],
            undecided=[terms.facts(project, record) for record in undecided],
            waiting=list(waiting),
            lost=list(lost),
        )
        return ProblemsFound.exit_code if problems or lost else 0
    for problem in problems:
        print(problem)
    for record in undecided:
        print(f"undecided: {record.title}  [{record.id}]")
    for sentence in lost:
        print(f"lost: {sentence}")
    words = f"{len(project.snapshot)} records, {len(problems)} problems, "
    print(words + f"{len(undecided)} undecided, {len(waiting)} waiting for git")
    return ProblemsFound.exit_code if problems or lost else 0
