"""A piece of a cure that was built in, as the step that takes it was done."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.faults.unrecorded import built_in_unrecorded
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.states.pieces import pieces_of
from logbook.records.together.revisions import current_revision, shown_label
from logbook.records.together.snapshot import Snapshot

_ACCEPTS = "yes"
_OTHERWISE = "it was with another, or none"


def built_in(snapshot: Snapshot) -> Iterator[Proposal]:
    """Ask whether a step done took the newest revision, where no piece of it is.

    Only of a revision that came after another: whether that was tried the pages tell.
    """
    for part in snapshot.all(Part):
        now = current_revision(snapshot, part)
        if now is None or now.follows is None:
            continue
        if found := built_in_unrecorded(snapshot, now):
            yield _asking(part, now, *found)


def _asking(
    part: Part, now: Revision, done: StepDone, step: Step, build: Build
) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        if not is_yes(answer):
            raise not_accepted("the piece", answer, f"{_ACCEPTS}; n: {_OTHERWISE}")
        numbers = [one.number for one in pieces_of(draft.snapshot, part)]
        piece = draft.new_piece(part, max(numbers, default=0) + 1)
        draft.amend(replace(piece, build=build.ref, revision=now.ref))

    name = f"{part.title} {shown_label(now)}"
    return Proposal(
        key=f"built in {now.id} {build.id}",
        topic="piece",
        about=done.ref,
        question=f"“{step.title}” is done in {build.title}: was it with {name}?",
        buys=f"a piece of it is on record, and the pages say that {name} was tried",
        accepts=_ACCEPTS,
        inputs=(done.ref, step.ref, now.ref, build.ref),
        take=take,
        otherwise=_OTHERWISE,
    )
