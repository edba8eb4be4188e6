"""What was set for an operation on one build: a drill, a torque, a temperature."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.advice.faults.drafted import revision_then
from logbook.advice.joints.tapped import tapped_words
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.states.undated import undated
from logbook.records.together.references import part_of
from logbook.records.together.revisions import shown_label
from logbook.records.together.snapshot import Snapshot


def set_at(snapshot: Snapshot, step: Step, held: Sequence[Revision]) -> Iterator[str]:
    """Say what was set when a step was done, build by build."""
    for done in _set(snapshot):
        if snapshot.find(done.step, Step) is step:
            yield _words(snapshot, done, held)


def set_for(snapshot: Snapshot, part: Part, held: Sequence[Revision]) -> Iterator[str]:
    """Say what was set for a part in operations that are no step of the order."""
    for done in _set(snapshot):
        if not snapshot.find(done.step, Step) and part_of(snapshot, done) is part:
            yield _words(snapshot, done, held)


def _set(snapshot: Snapshot) -> Iterator[StepDone]:
    for done in snapshot.all(StepDone):
        if done.set_to and not done.undone:
            yield done


def _words(snapshot: Snapshot, done: StepDone, held: Sequence[Revision]) -> str:
    """Say it as it was typed, with the values the words do not have.

    Work on a revision that is none of those `held` is said to be on that one. Its day
    stands for “half an hour ago”.
    """
    build = snapshot.find(done.build, Build)
    numbers = [str(value).partition(" ")[0] for value in done.set_to]
    told = all(number in done.title for number in numbers)
    line = undated(done.title)
    said = line if told else f"{line}, {', '.join(map(str, done.set_to))}"
    doubt = tapped_words(done)
    where = [build.title] if build else []
    where += [f"{done.when:%Y-%m-%d}"] if line != done.title else []
    piece = snapshot.find(done.piece, Piece)
    part = part_of(snapshot, done)
    made = snapshot.find(piece.revision, Revision) if piece else None
    made = made or (revision_then(snapshot, part, done) if part else None)
    if made is not None and part is not None and made not in held:
        where.append(f"on {shown_label(made)}")
    lead = f"{', '.join(where)}: " if where else ""
    return f"{lead}{said}" + (f" (check: {doubt})" if doubt else "")
