"""`logbook commit`: let git take what still waits."""

from __future__ import annotations

import argparse

from logbook.cli import terms


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Commit what waits and say what is left."""
    outcome = terms.committed(terms.opened(args))
    if args.json:
        terms.answer(**outcome)
    else:
        print(outcome["git"])
    return 0
