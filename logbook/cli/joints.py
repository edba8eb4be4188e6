"""`logbook joints`: what each joint comes to in the worst case, and known faults."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from logbook.advice.advisor import advise
from logbook.advice.ground.advice import Advice
from logbook.advice.joints.faulty import fault_words, faulty_joints
from logbook.cli import telling, terms
from logbook.errors import ProblemsFound
from logbook.records.kinds.assembling import Joint
from logbook.records.kinds.made_public import Erratum
from logbook.records.together.snapshot import Snapshot

FAULT = "known fault"
"""What marks a joint through a part that has one."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", nargs="?", default="", help="one joint, by its name")
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Say what each joint comes to; exit code 8 where one cannot be worked out."""
    project = terms.opened(args)
    snapshot, wanted = project.snapshot, args.name.casefold()
    told = advise(snapshot, project.at_hand)
    found = [
        one
        for one in sorted(told.of("joints"), key=lambda one: not one.open)
        if not wanted or one.about.name.casefold() == wanted
    ]
    faulty = _faulty(snapshot, wanted)
    if args.json:
        telling.answer(found, told, known_faults=[*_facts(snapshot, faulty)])
        return ProblemsFound.exit_code if told.problems else 0
    worked_out = {one.about.id for one in found}
    for identity in (one for one in faulty if one not in worked_out):
        print(f"{FAULT}: {snapshot[identity].title}")
        print(*_marks(faulty[identity]), sep="\n")
    nothing = "no joint is on record"
    if snapshot.all(Joint):
        nothing = "nothing else is to be said of the joints on record"
    return telling.tell(
        args, found, told, nothing, lambda one: _worked_out(one, faulty)
    )


def _faulty(snapshot: Snapshot, wanted: str) -> dict[str, tuple[Erratum, ...]]:
    """Give the known faults of the joints that are asked for, by their ids."""
    return {
        identity: faults
        for identity, faults in faulty_joints(snapshot).items()
        if not wanted or snapshot[identity].title.casefold() == wanted
    }


def _facts(
    snapshot: Snapshot, faulty: Mapping[str, Sequence[Erratum]]
) -> Iterator[dict[str, Any]]:
    for identity, faults in faulty.items():
        said = [{"id": one.id, "says": fault_words(one)} for one in faults]
        yield {"joint": f"{snapshot[identity].title} {identity}", "faults": said}


def _marks(faults: Sequence[Erratum]) -> Iterator[str]:
    yield from (f"    {FAULT}: {fault_words(one)}" for one in faults)


def _worked_out(one: Advice, faulty: Mapping[str, Sequence[Erratum]]) -> Iterator[str]:
    """Give a joint, its known faults, its figures, what they take for granted."""
    yield from telling.sentence(one)
    yield from _marks(faulty.get(one.about.id, ()))
    for number in one.numbers:
        yield f"    {number.name:<9} {number.shown:>9}   {number.meaning}"
    yield from (f"    {line}" for line in one.assumed)
    yield f"    {one.formula}; {'; '.join(one.sources)}"
