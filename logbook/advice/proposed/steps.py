"""The order of work worth proposing: what was done on one build, as it was done."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace

from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.advice.steps.step_words import BY_PAST, drafted_step, imperative
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot

ENOUGH = 3
"""Operations of one build from which on an order of work is worth proposing."""


def order_of_work(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose the operations of a build, in the order they were done, as steps.

    Not those of a build by a release that has an order of work: that is followed.
    """
    loose: dict[str, list[StepDone]] = defaultdict(list)
    for done in snapshot.all(StepDone):
        if done.step is None and not done.undone and _names_work(done):
            loose[done.build.id if done.build else ""].append(done)
    ordered = any(step.number > 0 for step in snapshot.all(Step))
    for build, entries in loose.items():
        held = snapshot.by_id(build, Build)
        if ordered and held is not None and held.release is not None:
            continue
        if len({folded(imperative(one.title)) for one in entries}) >= ENOUGH:
            yield _ordering(snapshot, build, entries)


def _names_work(done: StepDone) -> bool:
    """Tell whether an entry begins with what was done, so that a step can say it."""
    return done.title.split(maxsplit=1)[0].casefold() in BY_PAST


def _ordering(snapshot: Snapshot, build: str, entries: Sequence[StepDone]) -> Proposal:
    held = snapshot.by_id(build, Build)
    of = f" of {held.title}" if held else ""
    names = list(dict.fromkeys(imperative(one.title) for one in entries))
    shown = ", ".join(names[:3]) + (" …" if len(names) > 3 else "")
    accepts = "“yes”"

    def take(draft: Draft, answer: str) -> None:
        if not is_yes(answer):
            raise not_accepted("the order of work", answer, accepts)
        _put_in_order(draft, entries)

    return Proposal(
        key=f"order {entries[0].id}",
        topic="step",
        about=entries[0].ref,
        question=f"make the work{of} the order of work, as it was done: {shown}?",
        buys="the guide gets these steps, to be put right instead of written",
        accepts=accepts,
        inputs=tuple(one.ref for one in entries),
        take=take,
    )


def _put_in_order(draft: Draft, entries: Sequence[StepDone]) -> None:
    before: Ref | None = None
    made: dict[str, Step] = {}
    for done in entries:
        name = imperative(done.title)
        step = made.get(folded(name))
        if step is None:
            known = draft.snapshot.named(name, Step)
            step = (
                known[0]
                if known
                else draft.add(drafted_step(draft, name, done, before))
            )
            made[folded(name)] = step
        draft.amend(replace(done, step=step.ref))
        before = step.ref
