"""What is to be seen before a step closes, by name: the one home of that question.

A step that closes cannot be undone or hides something, so what must be inside, tested
and clean is ticked before it counts as done, whatever tells that it is done: the
order of work, a plain line, a job sheet, the shell. What was done unseen is a fact
too; it is gone past with a reason, or said aloud.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from logbook.advice.ground.advice import Advice
from logbook.advice.steps.passing import Why, add_override, concerns
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import Override, StepDone
from logbook.records.kinds.words import Grade
from logbook.records.making.drafts import Draft
from logbook.records.states.doing import is_done
from logbook.records.together.references import is_of
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot

SORTS = (
    ("inside", "is it in?"),
    ("tested", "was it tried?"),
    ("clean", "is it clean?"),
)
"""What is looked at before a step closes, and how it is asked."""

CHECKED = "checked"
"""Where it is kept that what a declared hold asks was seen."""

UNNAMED = "what should be inside is inside, and it works"
"""What is ticked where a step that closes names nothing; kept as tested."""


@dataclass(frozen=True, slots=True)
class Tick:
    """One thing to see before a step closes: its sort, its name, the question.

    What a hold asks that was declared by hand is of no sort; `step` is the id of the
    one it is declared for.
    """

    sort: str
    name: str
    question: str
    step: str = ""

    @property
    def shown(self) -> str:
        """Name it in short, as a list of what was not seen does."""
        return f"{self.sort}: {self.name}" if self.sort else self.name


def ticks_of(step: Step) -> tuple[Tick, ...]:
    """Give what a step names to be seen before it closes; nothing if it does not."""
    if not step.closes:
        return ()
    named = tuple(
        Tick(sort, name, f"{sort}: {name} – {asks}")
        for sort, asks in SORTS
        for name in getattr(step, sort)
    )
    return named or (Tick("tested", UNNAMED, f"{UNNAMED}?"),)


def all_ticks(step: Step, advice: Iterable[Advice]) -> tuple[Tick, ...]:
    """Give what is ticked before a step is done, and what its declared holds ask."""
    declared = (
        Tick("", one.about.name, f"{one.statement} – is it so?", step.id)
        for one in advice
        if one.key.startswith("hold ")
        and one.open
        and one.grade is Grade.CHECK
        and one.step
        and is_of(one.step, step)
    )
    return (*ticks_of(step), *declared)


def seen(ticked: Iterable[Tick]) -> dict[str, Any]:
    """Give what was ticked as the fields of a step that is done."""
    every = tuple(ticked)
    return {
        sort: tuple(tick.name for tick in every if tick.sort == sort)
        for sort, _ in SORTS
    }


def left_unticked(snapshot: Snapshot, done: StepDone) -> tuple[Tick, ...]:
    """Give what a step names and an entry of it does not say was seen."""
    step = snapshot.find(done.step, Step)
    return tuple(_left(done, ticks_of(step))) if step and not done.undone else ()


def _left(done: StepDone, ticks: Iterable[Tick]) -> Iterator[Tick]:
    for tick in ticks:
        named = {name.casefold() for name in getattr(done, tick.sort or CHECKED)}
        if tick.name.casefold() not in named:
            yield tick


# -- of a draft ------------------------------------------------------------------


def to_tick(draft: Draft, advice: Iterable[Advice]) -> tuple[Tick, ...]:
    """Give what the steps in a draft ask for and do not say was seen."""
    every = tuple(advice)
    return tuple(
        dict.fromkeys(
            tick
            for act, steps in _asking(draft)
            for step in steps
            for tick in _left(act, all_ticks(step, every))
        )
    )


def put_ticks(draft: Draft, ticked: Collection[Tick]) -> None:
    """Put on record what was ticked, in each step of a draft that asks for it."""
    for act, steps in _asking(draft):
        asked = {tick for step in steps for tick in ticks_of(step)}
        named = seen(tick for tick in ticked if tick in asked)
        held = {step.id for step in steps}
        named[CHECKED] = tuple(tick.name for tick in ticked if tick.step in held)
        together: dict[str, Any] = {
            sort: tuple(dict.fromkeys((*getattr(act, sort), *names)))
            for sort, names in named.items()
        }
        draft.amend(replace(act, **together))


def go_past_ticks(draft: Draft, why: Why) -> None:
    """Draft that steps in a draft were done without what was not ticked, and why."""
    for _, steps in _asking(draft):
        for step in steps:
            go_past_step(draft, step, why)


def go_past_step(draft: Draft, step: Step, why: Why) -> None:
    """Draft that a step was done without what it asks for; one reason is enough."""
    if step.title not in {one.hold for one in draft.made(Override)}:
        add_override(draft, step.title, step.ref, why)


def not_ticked_words(ticks: Iterable[Tick]) -> str:
    """Say what was not ticked."""
    return f"not ticked: {' · '.join(tick.shown for tick in ticks)}"


def _asking(draft: Draft) -> list[tuple[StepDone, tuple[Step, ...]]]:
    """Give the acts of a draft, each with the steps it does, or closes over.

    Work that closes and is no step of the order closes over the steps that make or
    take its part, as it goes past what waits for them.
    """
    found = []
    for act in draft.made(StepDone):
        step = draft.snapshot.find(act.step, Step)
        over = (one for one in draft.snapshot.all(Step) if _covers(draft, act, one))
        steps = (step,) if step else tuple(over)
        if steps and not act.undone:
            found.append((act, steps))
    return found


def _covers(draft: Draft, act: StepDone, step: Step) -> bool:
    snapshot = draft.snapshot
    if not (act.closes and step.closes) or not concerns(act, step):
        return False
    over = is_done(snapshot, step, draft.build()) or is_withdrawn(snapshot, step)
    return not over
