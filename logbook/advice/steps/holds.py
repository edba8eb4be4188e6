"""Holds on steps: what must be inside, tested and clean before one closes.

A declared hold speaks with its own grade until somebody goes past it. A step
that closes asks by name; what wears out and would be trapped is named too.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from logbook.advice.ground.advice import Advice
from logbook.advice.ground.register import View
from logbook.advice.steps.order import idle_parts, putting_in, written
from logbook.advice.steps.ticks import Tick, left_unticked, not_ticked_words
from logbook.records.kinds.assembling import Hold, Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Override, StepDone
from logbook.records.kinds.words import Grade
from logbook.records.states.held_for import holds_in, is_of_a_day, until_words
from logbook.records.together.revisions import is_withdrawn

_HOLD_POINT = "hold point before a covering-up step, common practice, no source"


def declared_advice(view: View, hold: Hold) -> Iterator[Advice]:
    """Say a declared hold again until its step is done, or somebody goes past it."""
    step = view.find(hold.step, Step)
    if step is None or is_done(view, step) or not holds_in(view, hold, view.build):
        return
    said = f" (said on {hold.when:%Y-%m-%d})" if is_of_a_day(hold.until) else ""
    until = f", {until_words(hold)}{said}" if hold.until else ""
    yield Advice(
        key=f"hold {hold.id}",
        topic="holds",
        grade=hold.grade,
        about=hold.ref,
        statement=f"{step.title}: {hold.because or hold.title}{until}",
        inputs=(hold.ref, step.ref),
        formula="declared by hand",
        changes=(hold.until or "an override with its reason",),
        step=step.ref,
        passed=gone_past(
            view, step, hold.because, hold.title, since=_apart_since(view, step)
        ),
    )


def closing_advice(view: View, step: Step) -> Iterator[Advice]:
    """Say what to look at by name before a step closes, and what it waits for."""
    if not step.closes or is_withdrawn(view, step):
        return
    if is_done(view, step):
        yield from _gone_past(view, step)
        return
    waits = tuple(_waits(view, step))
    asks = "; ".join((*waits, " · ".join(_asks(view, step))))
    opening = f"“{step.title}” waits: " if waits else f"before “{step.title}” closes — "
    yield Advice(
        key=f"close {step.id}",
        topic="holds",
        grade=Grade.WAIT if waits else Grade.CHECK,
        about=step.ref,
        statement=f"{opening}{asks}",
        inputs=(step.ref, *step.uses, *step.after),
        formula="a step that cannot be undone is asked about before it is done",
        sources=(_HOLD_POINT,),
        changes=("each of these seen on the bench",),
        step=step.ref,
        passed=gone_past(view, step, step.title, since=_apart_since(view, step)),
    )


def _gone_past(view: View, step: Step) -> Iterator[Advice]:
    """Say what a step that was done has left open, until that is answered.

    Either it is inside and nobody logged it, or it is not; both must be seen. So must
    what it names and nobody ticked.
    """
    ticks = _unticked(view, step)
    waits = (*_waits(view, step), *([not_ticked_words(ticks)] if ticks else ()))
    if waits:
        yield Advice(
            key=f"past {step.id}",
            topic="holds",
            grade=Grade.CHECK,
            about=step.ref,
            statement=f"gone past: “{step.title}” is done, and {'; '.join(waits)}",
            inputs=(step.ref, *step.uses, *step.after),
            formula="a step that closes covers up what was to come before it",
            sources=(_HOLD_POINT,),
            changes=("what came before, logged as done", "an override with its reason"),
            step=step.ref,
            passed=gone_past(view, step, step.title, since=_apart_since(view, step)),
        )


def _unticked(view: View, step: Step) -> tuple[Tick, ...]:
    """Give what the step names and the last entry of it does not say was seen.

    Nothing where the step was written down by that entry: what it names was asked
    afterwards, for the next time.
    """
    done = [one for one in _here(view) if view.find(one.step, Step) is step]
    named = step.inside or step.tested or step.clean
    asked = done and named and step.when < done[-1].when
    return left_unticked(view, done[-1]) if asked else ()


def _waits(view: View, step: Step) -> Iterator[str]:
    """Give the steps that are not done yet and that this one would cover up."""
    said: set[str] = set()
    put_in = _put_in(view)
    for name in step.inside:
        if name.casefold() in put_in:
            continue
        putting = [s for s in putting_in(view, name, written(view)) if s is not step]
        if putting and not any(is_done(view, one) for one in putting):
            said |= {one.id for one in putting}
            yield f"{name} goes in first, “{putting[0].title}” is not done"
    for first in filter(None, (view.find(ref, Step) for ref in step.after)):
        if first.id not in said and not is_done(view, first):
            yield f"“{first.title}” is not done"


def _asks(view: View, step: Step) -> Iterator[str]:
    named = (
        ("inside", _inside(view, step)),
        ("tested", step.tested),
        ("clean", step.clean),
    )
    told = [f"{word}: {', '.join(names)}" for word, names in named if names]
    yield from told or ["what should be inside, and does it work?"]
    idle = idle_parts(view) if not step.inside else ()
    if idle:
        yield f"on the parts list and in no step: {', '.join(idle)}"
    trapped = [part.title for part in _worn(view, step)]
    if trapped:
        verb = "wears" if len(trapped) == 1 else "wear"
        yield f"{', '.join(trapped)} {verb} out and would be trapped"


def _inside(view: View, step: Step) -> tuple[str, ...]:
    """Give what must be inside, with what is known to have lain outside before."""
    put_in = _put_in(view)
    return tuple(
        f"{name} (put in already)" if name.casefold() in put_in else name
        for name in step.inside
    )


def _put_in(view: View) -> frozenset[str]:
    """Give the folded names of what is logged as inside on the build in hand.

    What was taken apart since is open again: what it held, or had put in, may be out.
    """
    put_in: dict[str, Step | None] = {}
    for done in _here(view):
        step = view.find(done.step, Step)
        names = {name.casefold() for name in done.inside}
        if not done.undone:
            put_in |= dict.fromkeys(names, step)
            continue
        names |= {ref.name.casefold() for ref in step.uses} if step else set()
        put_in = {
            name: by
            for name, by in put_in.items()
            if name not in names and (step is None or by is not step)
        }
    return frozenset(put_in)


def _apart_since(view: View, step: Step) -> datetime | None:
    """Give when a step was last taken apart on the build in hand.

    What was gone past before that was gone past for what stands no more.
    """
    apart = [
        done.when
        for done in _here(view)
        if done.undone and view.find(done.step, Step) is step
    ]
    return apart[-1] if apart else None


def _worn(view: View, step: Step) -> Iterator[Part]:
    named = {name.casefold() for name in step.inside}
    for part in view.all(Part):
        if part.wears and part.title.casefold() in named:
            yield part


def _here(view: View) -> list[StepDone]:
    """Give the steps carried out on the build in hand."""
    build = view.build
    return [
        done
        for done in view.all(StepDone)
        if build is None or done.build is None or done.build.id == build.id
    ]


def is_done(view: View, step: Step) -> bool:
    """Tell whether a step is carried out on the build in hand, and not undone."""
    done = False
    for entry in _here(view):
        if view.find(entry.step, Step) is step:
            done = not entry.undone
    return done


def gone_past(
    view: View, step: Step | None, *called: str, since: datetime | None = None
) -> str:
    """Give the last reason for which somebody went on past it on this build, if any.

    An override means what it names; one that names nothing means its whole step.
    One from before `since` meant something else.
    """
    build = view.build
    names = {name.casefold() for name in called if name}
    for entry in reversed(view.all(Override)):
        mine = build is None or (
            entry.build.id == build.id if entry.build else entry.when >= build.when
        )
        if since is not None and entry.when < since:
            continue
        whole = not entry.hold and step is not None and entry.step == step.ref
        if mine and (whole or entry.hold.casefold() in names):
            return entry.because or entry.reason.value
    return ""
