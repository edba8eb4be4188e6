"""`logbook undo`: take the last entry back, or bring it back again."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.cli.shell_clock import clock_here, ends_again, goes_on
from logbook.project import Project
from logbook.store.acts.last import Act
from logbook.store.acts.taken_back import UNDO


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument(
        "--bring-back",
        action="store_true",
        help="bring back what was taken back last",
    )
    parser.add_argument("--when", help=argparse.SUPPRESS)
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Undo the last act of this clone, or what was undone last."""
    project = terms.opened(args)
    if args.bring_back:
        act, clock = _brought_back(project, args)
        done, way = "brought back", ""
    else:
        act = project.undo(terms.moment(args))
        clock = goes_on(project, act)
        done, way = "taken back", "; logbook undo --bring-back brings it back"
    subject = act.subject.removeprefix(UNDO)
    outcome = terms.committed(project)
    if args.json:
        files = [touched.path for touched in act.files]
        key = "brought_back" if args.bring_back else "undone"
        terms.answer(**{key: subject}, files=files, clock=clock, **outcome)
    else:
        print(f"{done}: {subject}{way}")
        if clock:
            print(clock)
        print(outcome["git"])
    return 0


def _brought_back(project: Project, args: argparse.Namespace) -> tuple[Act, str]:
    """Bring back what was taken back last; give what took it back, and of the clock."""
    clock, at = clock_here(project), terms.moment(args)
    act = project.redo(at)
    return act, ends_again(clock, act, at)
