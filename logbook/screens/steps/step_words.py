"""What is known of one step as rows of the sheet: what waits, cautions, the rest."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from textual.content import Content

from logbook.advice.faults.warned_of import at_step
from logbook.advice.ground.advice import Advice
from logbook.advice.ground.material import material_of
from logbook.advice.pieces import again
from logbook.advice.steps.going_past import GoingPast
from logbook.advice.steps.looking_again import to_look_at
from logbook.advice.steps.ticks import SORTS, all_ticks
from logbook.publish.signals import Caution, in_order, of_step, written
from logbook.records.kinds.assembling import Fit, Step
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Build
from logbook.records.states.doing import is_done
from logbook.records.together.references import is_of
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.moments import day
from logbook.screens.ruled.passage import Say

LOOK = "look again"
"""How a step is called that closed over something unseen."""

WEIGHTS = {
    LOOK: "$alarm",
    "waits": "$alarm bold",
    "check first": "$alarm",
    again.MAKE: "$alarm",
    again.FIT: "$alarm",
    "done": "$quiet",
    "dropped": "$quiet",
}
"""How loud the state of a step is drawn; what is to do stands out by itself."""

HOW_IF_WAITS = "asked one by one, if it was done all the same; y ticks it"
"""How what is to be seen is ticked of a step that waits."""


def steps_of(snapshot: Snapshot) -> tuple[Step, ...]:
    """Give the steps in the order of work; those that are dropped come last."""
    return tuple(
        sorted(
            snapshot.all(Step),
            key=lambda s: (is_dropped(snapshot, s), s.number, s.when, s.id),
        )
    )


def is_dropped(snapshot: Snapshot, step: Step) -> bool:
    """Tell whether a step is not done any more."""
    return step.number <= 0 or is_withdrawn(snapshot, step)


def holds_of(snapshot: Snapshot, step: Step, advice: Sequence[Advice]) -> list[Advice]:
    """Give the advice that concerns a step, the strongest first.

    A gap concerns the step that makes its last piece, though it names none.
    """
    found = [
        one
        for one in advice
        if (is_of(one.step, step) if one.step else _makes_last(snapshot, one, step))
    ]
    order = list(Grade)
    return sorted(found, key=lambda one: (bool(one.passed), order.index(one.grade)))


def _makes_last(snapshot: Snapshot, advice: Advice, step: Step) -> bool:
    fit = snapshot.find(advice.about, Fit)
    last = snapshot.find(fit.made_last, Characteristic) if fit else None
    made = snapshot.find(step.makes, Part)
    return last is not None and made is not None and is_of(last.part, made)


def state_of(
    snapshot: Snapshot, step: Step, build: Build | None, advice: Sequence[Advice]
) -> str:
    """Say in one word where a step stands on this build."""
    if is_dropped(snapshot, step):
        return "dropped"
    if is_done(snapshot, step, build):
        return again.once_more(advice, step) or "done"
    open_ones = [one.grade for one in holds_of(snapshot, step, advice) if one.open]
    if Grade.WAIT in open_ones:
        return "waits"
    return "check first" if open_ones else "to do"


def cautions_of(snapshot: Snapshot, step: Step) -> tuple[Caution, ...]:
    """Give what is said before a step: its own cautions and those of its processes."""
    part = snapshot.find(step.makes, Part)
    material = material_of(snapshot, part) if part else ""
    own = (written(line) for line in step.cautions)
    return in_order((*own, *of_step(step, material)))


def said_of(
    snapshot: Snapshot,
    step: Step,
    build: Build | None,
    advice: Sequence[Advice],
    how_to_tick: str = "",
    asked: GoingPast | None = None,
) -> Iterator[Say]:
    """Give all that is known of a step, in the order in which it is needed.

    Where its boxes can be ticked, `how_to_tick` names the keys that do; those that
    were `asked` for are shown as answered.
    """
    words = Content(f"{step.number} {step.title}" if step.number else step.title)
    state = state_of(snapshot, step, build, advice)
    yield Say(state, words.stylize("bold"))
    for one in holds_of(snapshot, step, advice):
        looks = one in to_look_at([one])
        loud = "$alarm" if one.open or looks else "$quiet"
        passed = f" (gone past: {one.passed})" if one.passed else ""
        words = Content(f"{one.statement}{passed}").stylize(loud)
        label = "gone past" if one.passed else one.grade.value
        yield Say(LOOK if looks else label, words)
    for fault in at_step(snapshot, build, step) if build else ():
        words = Content(fault.says).stylize("$alarm bold" if fault.stop else "$alarm")
        yield Say("careful", words)
    cautions = cautions_of(snapshot, step)
    for_any = [one for one in cautions if not _if_so(one)]
    yield from map(_warned, for_any)
    if state not in {"done", "dropped"}:
        how = how_to_tick and (HOW_IF_WAITS if state == "waits" else how_to_tick)
        yield from _ticks(step, advice, how, asked or GoingPast())
    yield from _needs(step)
    yield from map(_warned, filter(_if_so, cautions))
    yield from _done(snapshot, step)
    if step.prose:
        yield Say("prose", step.prose.replace("\n", " "))


def fault_mark(snapshot: Snapshot, step: Step, build: Build | None) -> str:
    """Say before a step that what it uses has a known fault; empty where not."""
    found = at_step(snapshot, build, step) if build else ()
    if any(one.stop for one in found):
        return "STOP · "
    return "fault · " if found else ""


def _if_so(caution: Caution) -> bool:
    """Tell whether a caution is about a material nobody said it is of."""
    return caution.line.startswith("If it is ")


def _warned(caution: Caution) -> Say:
    words = Content(f"{caution.line} {caution.defers}".strip())
    loud = "" if caution.signal == "NOTICE" else "$alarm bold"  # of things, not people
    return Say(caution.signal or "careful", words.stylize(loud))


def _ticks(
    step: Step, advice: Sequence[Advice], how: str, asked: GoingPast
) -> Iterator[Say]:
    boxes = [
        f"■ {tick.question} yes"
        if tick in asked.ticked
        else f"□ {tick.question}{' no' if tick in asked.unticked else ''}"
        for tick in all_ticks(step, advice)
    ]
    if boxes and how:
        boxes.insert(0, how)
    for at, words in enumerate(boxes):
        yield Say("" if at else "to tick", words)


def _needs(step: Step) -> Iterator[Say]:
    rows = (
        ("makes", step.makes.name if step.makes else ""),
        ("takes", ", ".join(ref.name for ref in step.uses)),
        ("after", ", ".join(ref.name for ref in step.after)),
        ("tools", ", ".join(step.tools)),
        ("or instead", ", ".join(step.substitutes)),
        ("process", ", ".join(step.process)),
        ("set to", ", ".join(step.set_to)),
        ("right when", step.accept),
        ("takes time", str(step.time or "")),
        ("closes", "it cannot be undone, or hides something" if step.closes else ""),
    )
    for label, words in rows:
        if words:
            yield Say(label, words)


def _done(snapshot: Snapshot, step: Step) -> Iterator[Say]:
    for entry in reversed(snapshot.all(StepDone)):
        if entry.step is None or not is_of(entry.step, step):
            continue
        what = "taken apart" if entry.undone else "done"
        build = f" on {entry.build.name}" if entry.build else ""
        time = f", {entry.time}" if entry.time else ""
        ticked = [
            f"{sort}: {', '.join(names)}"
            for sort, _ in SORTS
            if (names := getattr(entry, sort))
        ]
        seen = f" · {' · '.join(ticked)}" if ticked else ""
        when = day(entry.when)
        yield Say(when, sentence("$w", w=f"{what}{build}{time}{seen}"))
