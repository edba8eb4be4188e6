"""`logbook steps`: the order of work, and what the written one risks."""

from __future__ import annotations

import argparse

from logbook.advice.advisor import advise, strongest_first
from logbook.cli import telling, terms


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Propose an order of work; say where the written one differs, and its risk."""
    project = terms.opened(args)
    told = advise(project.snapshot, project.at_hand)
    return telling.tell_where_one_is(
        args,
        project,
        strongest_first(told.of("order")),
        told,
        "fewer than two steps on record",
        telling.with_assumed,
    )
