"""Whether something on record shows that a cure cures: more than that it was made.

A piece that was measured shows only what was read on it. That a fault is gone shows the
step it was met at, done with the cure; the size that was off, read on it and right; the
gap that a size is made for; or the word that it is still good.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.advice.gaps.came_out import suits
from logbook.quantity import Quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.happenings import Deviation, Failure, Run, Status, StepDone
from logbook.records.kinds.words import State
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.definition import WITHIN, dimension
from logbook.records.sizes.limits_held import as_held
from logbook.records.sizes.verdict_word import judged
from logbook.records.states.pieces import readings_of
from logbook.records.states.read_now import differs
from logbook.records.states.tried import held_up
from logbook.records.together.likeness import stems
from logbook.records.together.references import is_of, part_of
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot

Fault = Deviation | Failure

NOTHING_SHOWS = "nothing on record shows yet that it cures"


def not_shown(snapshot: Snapshot, fault: Fault, cure: Revision) -> str:
    """Say what is missing before a cure that was made is known to cure; else nothing.

    Where a fault was met at a step, it is that step, done in a build that has a piece
    of the cure, with what it asks for before it closes.
    """
    pieces = _pieces(snapshot, cure)
    wanted = tuple(_steps(snapshot, fault, cure))
    if wanted:
        if any(_done(snapshot, step, cure, pieces) for step in wanted):
            return ""
        names = " or ".join(f"“{step.title}”" for step in wanted)
        return f"not yet at {names}, which would show that it cures"
    if any(_good(snapshot, piece, fault) for piece in pieces):
        return ""
    item = _size(snapshot, fault)
    gaps = [suits(snapshot, piece, item) for piece in pieces] if item else []
    if "" in gaps:
        return ""
    if bad := [said for said in gaps if said]:
        return bad[-1]
    if item and any(_read_right(snapshot, one, item, cure) for one in pieces):
        return ""
    part = part_of(snapshot, cure)
    takes = _taking(snapshot, part) if part else ()
    if any(_done(snapshot, step, cure, pieces) for step in takes):
        return ""
    return NOTHING_SHOWS


def _pieces(snapshot: Snapshot, cure: Revision) -> list[Piece]:
    """Give the pieces of a cure that speak for it."""
    return [
        piece
        for piece in snapshot.mentions(cure, Piece)
        if snapshot.find(piece.revision) is cure and held_up(snapshot, piece, cure)
    ]


# -- what a piece shows ------------------------------------------------------------


def _good(snapshot: Snapshot, piece: Piece, fault: Fault) -> bool:
    """Tell whether a piece was fitted, said to be still good, or read after use.

    Use shows nothing of a size that was off.
    """
    said = any(
        snapshot.find(one.of) is piece and one.state in {State.CONFIRMED, State.FITTED}
        for one in snapshot.mentions(piece, Status)
        if one.when > fault.when
    )
    return said or any(
        isinstance(fault, Failure) and reading.after and reading.at > fault.when
        for run in snapshot.mentions(piece, Run)
        if snapshot.find(run.piece) is piece
        for reading in run.readings
    )


def _size(snapshot: Snapshot, fault: Fault) -> Characteristic | None:
    named = fault.characteristic if isinstance(fault, Deviation) else None
    return snapshot.find(named, Characteristic)


def _read_right(
    snapshot: Snapshot, piece: Piece, item: Characteristic, cure: Revision
) -> bool:
    """Tell whether the size that was off is as the cure draws it; not one to suit."""
    drawn = dimension(snapshot, cure, item)
    taken = readings_of(snapshot, piece, item)
    if drawn.to_suit or not taken:
        return False
    value, size = taken[-1].reading.value, drawn.nominal
    if isinstance(value, Quantity) and size and not differs(value, size):
        return True
    return judged(as_held(snapshot, drawn), value, None) == WITHIN


# -- the steps that show it --------------------------------------------------------


def _steps(snapshot: Snapshot, fault: Fault, cure: Revision) -> Iterator[Step]:
    """Give the steps of today in which a cure shows whether it cures.

    That at which the fault was met or that its line tells of; where it is not done
    any more, those that take the part now.
    """
    part = part_of(snapshot, cure)
    named = snapshot.find(getattr(fault, "step", None), Step)
    steps = snapshot.all(Step)
    told = [named] if named else [s for s in steps if _tells_of(fault, s)]
    yield from (one for one in told if not is_withdrawn(snapshot, one))
    if part is not None and any(is_withdrawn(snapshot, one) for one in told):
        yield from _taking(snapshot, part)


def _taking(snapshot: Snapshot, part: Part) -> Iterator[Step]:
    """Give the steps of today that take a part."""
    for step in snapshot.all(Step):
        if not is_withdrawn(snapshot, step) and any(is_of(r, part) for r in step.uses):
            yield step


def _tells_of(fault: Fault, step: Step) -> bool:
    """Tell whether a fault's line holds every word that carries a step's title."""
    wanted = stems(step.title)
    return len(wanted) > 1 and wanted <= stems(fault.title)


def _done(
    snapshot: Snapshot, step: Step, cure: Revision, pieces: Sequence[Piece]
) -> bool:
    """Tell whether a step was done, and stayed so, where a piece of the cure is."""
    builds = {id(snapshot.find(piece.build)) for piece in pieces}
    last: dict[int, StepDone] = {}
    for done in snapshot.all(StepDone):
        if snapshot.find(done.step) is step and done.when >= cure.when:
            last[id(snapshot.find(done.build))] = done
    return any(
        build in builds and not done.undone and _checked(step, done)
        for build, done in last.items()
    )


def _checked(step: Step, done: StepDone) -> bool:
    """Tell whether what has to be inside or tested first was said to be."""
    asked = ((step.inside, done.inside), (step.tested, done.tested))
    return all(said or not wanted for wanted, said in asked)
