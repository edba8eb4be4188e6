"""What is to be made or fitted again: its piece was scrapped or taken out since.

A step that was done stays done as a fact; that nothing is left of it is advice. It
keeps quiet where enough pieces are there all the same, or the step was done since.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime

from logbook.advice.ground.advice import Advice
from logbook.advice.ground.register import View
from logbook.advice.pieces.counts import parts_list
from logbook.advice.steps.holds import gone_past, is_done
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Entry, StepDone
from logbook.records.kinds.words import Grade, State
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.states.pieces import is_on_hand, last_word, piece_state, pieces_of
from logbook.records.together.references import is_of
from logbook.records.together.snapshot import Snapshot

TOPIC = "again"
MAKE, FIT = "make again", "fit again"


def there(snapshot: Snapshot, part: Part, build: Build | None) -> list[Piece]:
    """Give the pieces of a part that a build has and that are not gone."""
    return [
        piece
        for piece in _of_build(snapshot, part, build)
        if is_on_hand(snapshot, piece)
    ]


def lacking(total: int, build: Build, found: int) -> int:
    """Give how many pieces a build lacks of a part its list asks for so many times."""
    return max(0, total * build.units - found)


def once_more(advice: Iterable[Advice], step: Step) -> str:
    """Say of a step that was done what is to be done again; nothing where it stands."""
    for one in advice:
        mine = one.topic == TOPIC and one.step is not None and is_of(one.step, step)
        if mine and one.open:
            return one.statement.partition(":")[0]
    return ""


def again_advice(view: View, step: Step) -> Iterator[Advice]:
    """Say of a step that was done that its piece is gone since, once for each piece."""
    build = view.build
    if build is None or not is_done(view, step):
        return
    made = view.find(step.makes, Part)
    parts = [made] if made else [view.find(ref, Part) for ref in step.uses]
    last = _last_done(view, step, build)
    for part in filter(None, parts):
        for piece, state, by in _gone(view, part, build, fitted=made is None):
            if last is None or last >= by.when or _replaced(view, piece, by, made):
                continue
            word = FIT if made is None else MAKE
            yield Advice(
                key=f"again {step.id} {piece.id}",
                topic=TOPIC,
                grade=Grade.CHECK,
                about=piece.ref,
                statement=f"{word}: {piece.title} {state.value}",
                inputs=(by.ref, step.ref, part.ref, piece.ref),
                formula="the build has fewer pieces than it needs since the step",
                sources=("the parts list of this logbook; one where it names none",),
                changes=("another piece", "the step, logged as done again"),
                step=step.ref,
                passed=gone_past(view, None, piece.title, since=by.when),
            )


def _of_build(snapshot: Snapshot, part: Part, build: Build | None) -> Iterator[Piece]:
    for piece in pieces_of(snapshot, part):
        if build is None or snapshot.find(piece.build) is build:
            yield piece


def _last_done(view: View, step: Step, build: Build) -> datetime | None:
    """Give when a step was last done on a build."""
    done = [
        one.when
        for one in view.mentions(step, StepDone)
        if view.find(one.step) is step
        and not one.undone
        and (one.build is None or one.build.id == build.id)
    ]
    return max(done, default=None)


def _gone(
    view: View, part: Part, build: Build, *, fitted: bool
) -> Iterator[tuple[Piece, State, Entry]]:
    """Give the pieces that are gone, and what says so; one taken out is made still."""
    gone = {State.SCRAPPED, State.LOST} | ({State.TAKEN_OUT} if fitted else set())
    for piece in _of_build(view, part, build):
        state, by = last_word(view, piece)
        if state in gone and by is not None:
            yield piece, state, by


def _replaced(view: View, gone: Piece, by: Entry, made: Part | None) -> bool:
    """Tell whether the build has as many pieces as it needs, one of them gone.

    Where it was fitted, a piece made since replaces it once that is fitted.
    """
    part, build = view.find(gone.part, Part), view.build
    if part is None or build is None:
        return True
    found = there(view, part, build)
    if made is None:
        found = [
            one
            for one in found
            if one.when <= by.when or piece_state(view, one) is State.FITTED
        ]
    listed = next((one for one in parts_list(view)[0] if one.part is part), None)
    return not lacking(listed.total if listed else 1, build, len(found))
