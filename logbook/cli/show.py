"""`logbook show`: a record with its facts, its file, and what mentions it."""

from __future__ import annotations

import argparse

from logbook.cli import names, terms
from logbook.records.kinds.design import Part
from logbook.records.kinds.table import kind_of
from logbook.records.sizes.definition import definition
from logbook.records.sizes.limits_held import as_held, held_text
from logbook.records.states.pieces import piece_state, pieces_of
from logbook.records.together.revisions import revisions_of, shown_label
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import write_record


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("what", nargs="+", help="a name, or the first letters of an id")
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Show the record."""
    project = terms.opened(args)
    snapshot = project.snapshot
    record = names.meant(snapshot, " ".join(args.what))
    mentioned = snapshot.mentions(record)
    if args.json:
        terms.answer(
            record=terms.facts(project, record),
            mentioned_by=[terms.facts(project, other) for other in mentioned],
        )
        return 0
    print(write_record(record))
    if isinstance(record, Part):
        print("\n".join(_part(snapshot, record)))
    for other in mentioned:
        print(f"{other.when:%Y-%m-%d}  {kind_of(other).shown}: {other.title}")
    print(f"\n{snapshot.path(record)}")
    return 0


def _part(snapshot: Snapshot, part: Part) -> list[str]:
    # What a cure came to asks all the gaps: nothing else that is shown needs them.
    from logbook.advice.faults.trying import cure_words

    lines = []
    for revision in revisions_of(snapshot, part):
        lines.append(f"{shown_label(revision)}: {cure_words(snapshot, revision)}")
        lines += [
            f"  {drawn.name}: {held_text(as_held(snapshot, drawn))}"
            for drawn in definition(snapshot, revision)
        ]
    lines += [
        f"{piece.title}: {piece_state(snapshot, piece)}"
        for piece in pieces_of(snapshot, part)
    ]
    return [*lines, ""]
