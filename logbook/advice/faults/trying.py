"""Whether a cure was tried, and whether it was at the step that shows that it cures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logbook.advice.faults.gone import gone_because
from logbook.advice.faults.headline import headline
from logbook.records.assembling import Step
from logbook.records.design import Part, Revision
from logbook.records.happenings import Deviation, Failure, StepDone
from logbook.records.likeness import stems
from logbook.records.made_public import Erratum
from logbook.records.pieces import piece_state
from logbook.records.references import is_of, part_of
from logbook.records.revisions import is_withdrawn
from logbook.records.snapshot import Snapshot
from logbook.records.tried import held_up, off_what_changed, verdict_of
from logbook.records.words import Blame
from logbook.records.workshop import Piece

Fault = Deviation | Failure

NOBODY = "nobody has made it yet"
FAILED = "no piece made of it has held"


def cure_words(snapshot: Snapshot, cure: Revision, faults: Iterable[Fault] = ()) -> str:
    """Say tried, or untried and why; withdrawn where it was.

    The word is that of the revision itself (`tried.verdict_of`). `faults` are those it
    cures: where one was met at a step, it is said that the step was not done yet in a
    build that has a piece of the cure, with what it asks for before it closes.
    """
    verdict = verdict_of(snapshot, cure)
    if verdict == "untried":
        return f"untried: {_why_not(snapshot, cure)}"
    if verdict != "tried":
        return verdict
    for fault in faults:
        wanted = tuple(_steps(snapshot, fault, cure))
        if wanted and not any(_done(snapshot, step, cure) for step in wanted):
            names = " or ".join(f"“{step.title}”" for step in wanted)
            return f"tried, but not yet at {names}, which would show that it cures"
    return "tried"


def entries_of(snapshot: Snapshot, erratum: Erratum) -> tuple[Fault, ...]:
    """Give the deviations and failures a known fault rests on."""
    found = (snapshot.find(ref) for ref in erratum.from_entries)
    return tuple(one for one in found if isinstance(one, Deviation | Failure))


# -- no piece that held ----------------------------------------------------------


def _why_not(snapshot: Snapshot, cure: Revision) -> str:
    pieces = [
        piece
        for piece in snapshot.mentions(cure, Piece)
        if snapshot.find(piece.revision) is cure
    ]
    if not pieces:
        return NOBODY
    failed = [
        failure
        for piece in pieces
        for failure in snapshot.mentions(piece, Failure)
        if snapshot.find(failure.piece) is piece
    ]
    own = [one for one in failed if one.met_by_others in {Blame.PIECE, Blame.MACHINE}]
    if len(pieces) == 1 and own and not held_up(snapshot, pieces[0], cure):
        return f"its only piece so far failed too: {headline(snapshot, own[-1])}"
    if failed or any(_off(snapshot, piece) for piece in pieces):
        return FAILED
    return "; ".join(_gone(snapshot, piece, cure) for piece in pieces)


def _off(snapshot: Snapshot, piece: Piece) -> bool:
    """Tell whether a piece differs by its drawing, or for no known reason."""
    return any(
        snapshot.find(one.piece) is piece
        and one.met_by_others in {Blame.DRAWING, Blame.UNKNOWN}
        for one in snapshot.mentions(piece, Deviation)
    )


def _gone(snapshot: Snapshot, piece: Piece, revision: Revision) -> str:
    """Say why a piece tells nothing: it was scrapped, for this reason, or is not here.

    A slip at the bench says nothing against the drawing.
    """
    if off_what_changed(snapshot, piece, revision):
        return f"{piece.title} came out off in the very size that was changed"
    state = piece_state(snapshot, piece).value
    why = gone_because(snapshot, piece)
    return f"{piece.title} is {state}" + (f": {why}" if why else "")


# -- the step it was met at ------------------------------------------------------


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
        for step in steps:
            if not is_withdrawn(snapshot, step) and _takes(step, part):
                yield step


def _tells_of(fault: Fault, step: Step) -> bool:
    """Tell whether a fault's line holds every word that carries a step's title."""
    wanted = stems(step.title)
    return len(wanted) > 1 and wanted <= stems(fault.title)


def _takes(step: Step, part: Part) -> bool:
    return any(is_of(ref, part) for ref in step.uses)


def _done(snapshot: Snapshot, step: Step, cure: Revision) -> bool:
    """Tell whether a step was done, and stayed so, where a piece of the cure is."""
    builds = {
        id(snapshot.find(piece.build))
        for piece in snapshot.mentions(cure, Piece)
        if snapshot.find(piece.revision) is cure and held_up(snapshot, piece, cure)
    }
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
