"""What was set for an operation on one build: a drill, a torque, a temperature."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.joints.tapped import tapped_words
from logbook.records.assembling import Step
from logbook.records.design import Part
from logbook.records.happenings import StepDone
from logbook.records.references import part_of
from logbook.records.snapshot import Snapshot
from logbook.records.workshop import Build


def set_at(snapshot: Snapshot, step: Step) -> Iterator[str]:
    """Say what was set when a step was done, build by build."""
    for done in _set(snapshot):
        if snapshot.find(done.step, Step) is step:
            yield _words(snapshot, done)


def set_for(snapshot: Snapshot, part: Part) -> Iterator[str]:
    """Say what was set for a part in operations that are no step of the order."""
    for done in _set(snapshot):
        if not snapshot.find(done.step, Step) and part_of(snapshot, done) is part:
            yield _words(snapshot, done)


def _set(snapshot: Snapshot) -> Iterator[StepDone]:
    for done in snapshot.all(StepDone):
        if done.set_to and not done.undone:
            yield done


def _words(snapshot: Snapshot, done: StepDone) -> str:
    """Say it as it was typed, with the values the words do not have."""
    build = snapshot.find(done.build, Build)
    numbers = [str(value).partition(" ")[0] for value in done.set_to]
    told = all(number in done.title for number in numbers)
    said = done.title if told else f"{done.title}, {', '.join(map(str, done.set_to))}"
    doubt = tapped_words(done)
    where = f"{build.title}: " if build else ""
    return f"{where}{said}" + (f" (check: {doubt})" if doubt else "")
