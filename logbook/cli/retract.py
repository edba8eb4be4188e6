"""`logbook retract`: a failure that was none, a decision that is not kept to."""

from __future__ import annotations

import argparse
from functools import partial

from logbook.cli import names, terms
from logbook.errors import BadInput
from logbook.project import Saved
from logbook.records.kinds.made_public import Erratum
from logbook.records.making.drafts import Draft
from logbook.records.making.retracting import retract, retracted
from logbook.records.together.snapshot import Snapshot


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("entry", help="the failure, decision or deviation")
    parser.add_argument("--because", default="", help="why it is not so")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Make a note of the entry, in its own file; what it said stays in words."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    entry = names.meant_of(project.snapshot, args.entry, *names.REASONS)
    if not isinstance(entry, names.REASONS):
        raise BadInput(
            f"“{entry.title}” is none; accepted: a failure, a decision or a deviation"
        )
    retract(draft, entry, retracted(project.snapshot, entry, args.because))
    tell = partial(_told, project.snapshot, draft)
    return terms.save(project, draft, f"retracted: {entry.title}", args, tell=tell)


def _told(before: Snapshot, draft: Draft, saved: Saved) -> list[str]:
    """Say what it is now, what went with it, and which known fault still tells it."""
    lines = [f"retracted: {one.title}  [{one.id}], a note now" for one in draft.amended]
    lines += [f"gone with it: {one.title}" for one in draft.dropped]
    for note in saved.records:
        faults = before.mentions(before[note.id], Erratum) if note.id in before else ()
        lines += [
            f"the known fault “{one.title}” still tells it; take it out by: "
            f"logbook erratum {one.id} --status withdrawn"
            for one in faults
        ]
    return lines
