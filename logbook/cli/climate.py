"""`logbook climate`: what heat and moist air do, over the rooms it will stand in."""

from __future__ import annotations

import argparse

from logbook.advice.advisor import advise, strongest_first
from logbook.advice.rooms.unanswered import rooms_told, unanswered
from logbook.cli import names, telling, terms
from logbook.errors import ProblemsFound
from logbook.records.kinds.design import Part
from logbook.records.together.revisions import parts_now

NEITHER = "neither wood nor a plastic whose figures are here is on record"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("part", nargs="?", default="", help="one part, by its name")
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Say what softens and what moves, what asks for something first.

    A part of which nothing can be said yet is named with what is missing.
    """
    project = terms.opened(args)
    snapshot = project.snapshot
    told = advise(snapshot, project.at_hand)
    found = strongest_first((*told.of("heat"), *told.of("wood")))
    parts = parts_now(snapshot)
    if args.part:
        parts = (names.meant(snapshot, args.part, Part),)
    ids = {part.id for part in parts}
    found = tuple(one for one in found if one.inputs[0].id in ids)
    answered = {one.inputs[0].id for one in found}
    missing = [said for _, said in unanswered(snapshot, parts, answered)]
    if args.json:
        telling.answer(found, told, missing=missing)
        return ProblemsFound.exit_code if told.problems else 0
    nothing = f"no answer yet; {rooms_told(snapshot)}" if missing else NEITHER
    if args.part and not missing:
        nothing = f"{parts[0].title}: {NEITHER}"
    code = telling.tell(args, found, told, nothing)
    for line in missing:
        print(f"not told of {line}")
    return code
