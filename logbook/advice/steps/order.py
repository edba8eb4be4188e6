"""A proposed order of work, and what the written one risks where it differs.

What is made comes before what uses it; what is made last to suit comes after all
it has to suit; what goes inside comes before the step that closes, and that as
late as it can. Otherwise the written order stays.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from logbook.advice.ground.advice import Advice
from logbook.advice.ground.cost import weighed
from logbook.advice.ground.naming import formula_of, meant
from logbook.advice.ground.register import View
from logbook.errors import BadInput, Problem
from logbook.records.kinds.assembling import Fit, Line, Step
from logbook.records.kinds.design import Characteristic, Part, Project
from logbook.records.kinds.words import Grade
from logbook.records.states.doing import is_done
from logbook.records.together.names import folded
from logbook.records.together.revisions import is_withdrawn


@dataclass(frozen=True, slots=True)
class Must:
    """One step that has to come before another; `risk` is what happens otherwise."""

    first: Step
    then: Step
    risk: str
    part: Part | None = None


def written(view: View) -> tuple[Step, ...]:
    """Give the numbered steps in order, without those that are dropped."""
    steps = (
        step
        for step in view.all(Step)
        if step.number > 0 and not is_withdrawn(view, step)
    )
    return tuple(sorted(steps, key=lambda step: (step.number, step.when, step.id)))


def musts(view: View, steps: Sequence[Step]) -> tuple[Must, ...]:
    """Give everything that has to come before something else, with the risk."""
    found = (
        *_said(view, steps), *_made(view, steps), *_suited(view, steps),
        *_inside(view, steps),
    )  # fmt: skip
    kept: dict[tuple[str, str], Must] = {}
    for one in found:
        if one.first is not one.then:
            kept.setdefault((one.first.id, one.then.id), one)
    return tuple(kept.values())


def _said(view: View, steps: Sequence[Step]) -> Iterator[Must]:
    written_so = {step.id: step for step in steps}
    for step in steps:
        for ref in step.after:
            named = view.find(ref, Step)
            first = written_so.get(named.id) if named else None
            if first is not None:
                yield Must(first, step, f"it is written to come after “{first.title}”")


def _made(view: View, steps: Sequence[Step]) -> Iterator[Must]:
    makers = _makers(view, steps)
    for step in steps:
        for part in filter(None, (view.find(ref, Part) for ref in step.uses)):
            for maker in makers.get(part.id, ()):
                yield Must(maker, step, f"there is no {part.title} yet", part)


def _makers(view: View, steps: Sequence[Step]) -> dict[str, list[Step]]:
    found: dict[str, list[Step]] = {}
    for step in steps:
        part = view.find(step.makes, Part)
        if part is not None:
            found.setdefault(part.id, []).append(step)
    return found


def _suited(view: View, steps: Sequence[Step]) -> Iterator[Must]:
    makers = _makers(view, steps)
    for fit in view.all(Fit):
        last = view.find(fit.made_last, Characteristic)
        part = view.find(last.part, Part) if last else None
        if part is None:
            continue
        try:
            others = [meant(view, name) for name in formula_of(fit.formula).names]
        except BadInput:
            continue  # said with the gap itself
        for one in others:
            for first in makers.get(one.part.id, ()) if one.what is not last else ():
                for then in makers.get(part.id, ()):
                    risk = (
                        f"the {part.title} would be made before the {one.part.title} "
                        f"{one.what.title} can be measured, and only fit by luck"
                    )
                    yield Must(first, then, risk, part)


def _inside(view: View, steps: Sequence[Step]) -> Iterator[Must]:
    for step in steps:
        if not step.closes:
            continue
        for name in step.inside:
            for first in putting_in(view, name, steps):
                risk = f"{name} would still be outside when it closes"
                yield Must(first, step, risk)


def putting_in(view: View, name: str, steps: Sequence[Step]) -> list[Step]:
    """Give the steps that put a part in that has to be inside: they use it."""
    wanted = folded(name)
    found = []
    for step in steps:
        parts = (view.find(ref, Part) for ref in step.uses)
        called = {folded(ref.name) for ref in step.uses}
        called |= {folded(part.title) for part in parts if part}
        if wanted in called:
            found.append(step)
    return [step for step in found if not step.closes] or found


def proposed(
    steps: Sequence[Step], before: Sequence[Must]
) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
    """Give an order that keeps every must, and the steps that go round in a circle.

    Of what may come next the first written one is taken, one that closes last.
    """
    waits: dict[str, set[str]] = {step.id: set() for step in steps}
    for one in before:
        waits[one.then.id].add(one.first.id)
    left, order = list(steps), list[Step]()
    while left:
        ready = [step for step in left if not waits[step.id]]
        if not ready:
            break
        step = _next(ready, left)
        order.append(step)
        left.remove(step)
        for held in waits.values():
            held.discard(step.id)
    return tuple(order), tuple(left)


def _next(ready: Sequence[Step], left: Sequence[Step]) -> Step:
    """Give the first that does not close, where something else can still be done."""
    open_ones = [step for step in ready if not step.closes]
    closes_first = ready[0].closes and open_ones
    inside_left = any(
        folded(name) in {folded(ref.name) for ref in step.uses}
        for name in ready[0].inside
        for step in left
        if step is not ready[0]
    )
    return open_ones[0] if closes_first and inside_left else ready[0]


def order_advice(view: View, project: Project) -> Iterator[Advice | Problem]:
    """Propose an order of work, and say what the written one risks."""
    steps = written(view)
    if len(steps) < 2:
        return
    before = musts(view, steps)
    order, circle = proposed(steps, before)
    if circle:
        names = ", ".join(f"{step.title} {step.id}" for step in circle)
        path = view.path(circle[0])
        accepted = (
            "an order of work without a circle: take one of --after or --uses off"
        )
        yield Problem(path, 0, "after", f"{names} wait for each other", accepted)
        return
    for one in _misplaced(steps, before):
        risk = _risk(one)
        if is_done(view, one.first, view.build):  # Only the numbers are still off.
            said = f"{risk.statement}; done already on this build"
            risk = replace(risk, grade=Grade.REMARK, statement=said)
        yield risk
    moved = [step.id for step in order] != [step.id for step in steps]
    yield _whole(view, project, order, moved=moved)


def unbuildable(view: View) -> Iterator[Advice]:
    """Say where a step that closes is written before what has to come first.

    Whoever follows the written order stands before it, so it counts though it was
    done the right way round on the build in hand. It is about what comes first: to
    go past the closing of one build says nothing of the next.
    """
    for one in closing_too_soon(view, written(view)):
        yield replace(_risk(one), about=one.first.ref)


def closing_too_soon(view: View, steps: Sequence[Step]) -> Iterator[Must]:
    """Give what has to come before a step that closes, and stands after it in these."""
    for one in _misplaced(steps, musts(view, steps)):
        if _risk(one).grade is Grade.WAIT:
            yield one


def _misplaced(steps: Sequence[Step], before: Sequence[Must]) -> Iterator[Must]:
    place = {step.id: at for at, step in enumerate(steps)}
    return (one for one in before if place[one.first.id] > place[one.then.id])


def _risk(one: Must) -> Advice:
    said = (
        f"“{one.first.title}” is written after “{one.then.title}”: {one.risk}; it has "
        "to come first"
    )
    closing = one.then.closes
    grade = weighed(one.part, Grade.WAIT if closing else Grade.CHECK)
    return Advice(
        key=f"order {one.first.id} {one.then.id}",
        topic="order",
        grade=grade,
        about=one.then.ref,
        statement=said,
        inputs=(one.first.ref, one.then.ref),
        formula="what is used, measured or hidden comes first",
        changes=("another number of one of the two steps",),
        step=one.then.ref,
    )


def _whole(
    view: View, project: Project, order: Sequence[Step], *, moved: bool
) -> Advice:
    listed = " · ".join(f"{at} {step.title}" for at, step in enumerate(order, 1))
    said = "proposed order" if moved else "the written order holds"
    idle = _idle(view, order)
    more = f"; in no step yet: {', '.join(idle)}" if idle else ""
    return Advice(
        key="order",
        topic="order",
        grade=Grade.REMARK,
        about=project.ref,
        statement=f"{said}: {listed}{more}",
        inputs=tuple(step.ref for step in order),
        formula="what is used, measured or hidden comes first, closing as late as it "
        "can, otherwise as written",
        changes=("another step, or what one makes, uses and has inside",),
    )


def _idle(view: View, steps: Sequence[Step]) -> tuple[str, ...]:
    """Give what is on the parts list and in no step: it may be forgotten."""
    used = {ref.id for step in steps for ref in step.uses}
    used |= {step.makes.id for step in steps if step.makes}
    used |= {p.id for step in steps for name in step.inside
             for p in view.named(name, Part)}  # fmt: skip
    parts = (view.find(line.part, Part) for line in view.all(Line) if line.quantity)
    return tuple(dict.fromkeys(p.title for p in parts if p and p.id not in used))


def idle_parts(view: View) -> tuple[str, ...]:
    """Give what is on the parts list and in no step of the written order."""
    return _idle(view, written(view))
