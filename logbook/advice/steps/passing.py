"""What an act goes past: the waits that stand against what is about to be logged.

What was done is a fact and is logged; that something waited is asked about first,
or said. It may have been done all the same, for a reason, which is an override.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from logbook.advice.ground.advice import Advice
from logbook.records.kinds.assembling import Fit, Step
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Override, Run, StepDone
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.words import Grade, OverrideReason
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft


@dataclass(frozen=True, slots=True)
class Why:
    """Why somebody goes on: a reason, and his own words where it is another one."""

    reason: OverrideReason = OverrideReason.OTHER
    because: str = ""


class WaitSort(StrEnum):
    """What it is that waits: each is gone past for other reasons."""

    GAP = "gap"
    CLOSING = "closing step"
    HOLD = "hold"


Reasons = Mapping[str, tuple[str, Why]]
"""Reasons by the figure that gives them, each with the words it is offered in."""

_CHECKED = ("it was checked already", Why(OverrideReason.CHECKED))
_CHEAP = ("little is lost if it is wrong", Why(OverrideReason.CHEAP))


def _said(words: str) -> tuple[str, Why]:
    return words, Why(because=words)


REASONS: Mapping[WaitSort, Reasons] = {
    WaitSort.GAP: {
        "1": ("it will be fitted by hand", Why(OverrideReason.FIT_BY_HAND)),
        "2": _CHECKED,
        "3": _CHEAP,
    },
    WaitSort.CLOSING: {"1": _said("it can be opened again"), "2": _CHECKED},
    WaitSort.HOLD: {
        "1": _said("it does not hold any more"),
        "2": _CHECKED,
        "3": _CHEAP,
    },
}
"""Why something that waits may be done; what is offered of several has one figure."""


def sort_of(wait: Advice) -> WaitSort:
    """Tell what it is that waits."""
    if wait.topic == "gaps":
        return WaitSort.GAP
    closing = wait.topic == "order" or wait.key.startswith("close ")
    return WaitSort.CLOSING if closing else WaitSort.HOLD


def reasons_for(sorts: Iterable[WaitSort]) -> Reasons:
    """Give the reasons that fit everything that is gone past at once."""
    first, *others = dict.fromkeys(sorts)
    return {
        key: reason
        for key, reason in REASONS[first].items()
        if all(REASONS[other].get(key) == reason for other in others)
    }


def why_of(said: str, reasons: Reasons) -> Why | None:
    """Read an answer: a figure, a reason as offered or on record, or words.

    Nothing said is no reason.
    """
    said = " ".join(said.split())
    if said in reasons:
        return reasons[said][1]
    if said in set(OverrideReason):
        return Why(OverrideReason(said))
    offered = dict(reasons.values())
    return offered.get(said, Why(because=said)) if said else None


def passing(draft: Draft, advice: Iterable[Advice]) -> tuple[Advice, ...]:
    """Give the open waits that the steps in a draft go past.

    A step goes past what waits for it; work on a part of the step that closes over
    it does, where it closes; and making the part that a gap makes last does.
    """
    waits = [one for one in advice if one.open and one.grade is Grade.WAIT]
    acts = [one for one in draft.new if isinstance(one, StepDone) and not one.undone]
    return tuple(
        wait for wait in waits if any(_goes_past(draft, act, wait) for act in acts)
    )


def past_words(wait: Advice) -> str:
    """Say which wait was gone past."""
    return f"gone past: {wait.statement}"


def add_override(draft: Draft, hold: str, step: Ref | None, why: Why) -> Override:
    """Draft that somebody went on past a hold, and why."""
    return draft.add(
        Override(
            id=new_id(),
            title=f"went on: {hold}",
            when=draft.when,
            build=draft.build().ref,
            hold=hold,
            step=step,
            reason=why.reason,
            because=why.because,
        )
    )


def end_hold(draft: Draft, hold: str, step: Ref | None) -> Override:
    """Draft that a hold that was declared does not hold any more."""
    _, why = REASONS[WaitSort.HOLD]["1"]
    return draft.amend(
        replace(add_override(draft, hold, step, why), title=f"over: {hold}")
    )


def pass_all(draft: Draft, waits: Iterable[Advice], why: Why) -> None:
    """Draft an override of each of these waits beside what went past them."""
    for wait in waits:
        add_override(draft, wait.about.name, wait.step, why)


def _goes_past(draft: Draft, act: StepDone, wait: Advice) -> bool:
    snapshot = draft.snapshot
    done = snapshot.find(act.step, Step)
    held = snapshot.find(wait.step, Step) if wait.step else None
    fit = snapshot.find(wait.about, Fit)
    if fit is not None and _makes_last(draft, act, fit):
        return True
    if held is None:
        return False
    if done is not None:
        return done.id == held.id
    return act.closes and held.closes and concerns(act, held)


def concerns(act: StepDone, step: Step) -> bool:
    """Tell whether work on a part is work of a step that makes or takes it."""
    parts = {ref.id for ref in (step.makes, *step.uses) if ref and ref.id}
    return act.part is not None and act.part.id in parts


def _makes_last(draft: Draft, act: StepDone, fit: Fit) -> bool:
    """Tell whether an act makes, or brings to its size, what a gap makes last."""
    snapshot = draft.snapshot
    last = snapshot.find(fit.made_last, Characteristic)
    part = snapshot.find(last.part, Part) if last else None
    if last is None or part is None or act.part is None or act.part.id != part.id:
        return False
    step = snapshot.find(act.step, Step)
    if step is not None and snapshot.find(step.makes, Part) is part:
        return True
    return any(
        (isinstance(one, Piece) and one.part.id == part.id)
        or (isinstance(one, Run) and any(r.what.id == last.id for r in one.readings))
        for one in draft.new
    )
