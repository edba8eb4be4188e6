"""`logbook commit`: let git take what still waits."""

from __future__ import annotations

import argparse
from datetime import UTC, datetime

from logbook.cli import terms


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    gone = parser.add_mutually_exclusive_group()
    gone.add_argument(
        "--bring-back",
        action="store_true",
        help="first write again what check says was lost",
    )
    gone.add_argument(
        "--let-go",
        action="store_true",
        help="let go for good what check says was lost",
    )
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Commit what waits and say what is left."""
    project = terms.opened(args)
    lost: dict[str, tuple[str, ...]] = {}
    if args.bring_back:
        lost = {"brought_back": project.bring_back(datetime.now(UTC).astimezone())}
    elif args.let_go:
        lost = {"let_go": project.let_go()}
    outcome = terms.committed(project)
    if args.json:
        terms.answer(**lost, **outcome)
        return 0
    for key, paths in lost.items():
        what = key.replace("_", " ")
        print("\n".join(f"{what}: {path}" for path in paths) or f"{what}: nothing")
    print(outcome["git"])
    return 0
