"""What the steps ticked on a job sheet go past, each asked about as by any other door.

What the sheet itself tells counts: the cable that was put in, the opening that was read
and the reason written beside a wait stand before the step that waited for them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from logbook.advice.advisor import Advisor
from logbook.advice.ground.advice import Advice
from logbook.advice.steps.going_past import GoingPast, going_past
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot, Stored
from logbook.records.together.succession import with_records

Asked = tuple[Step, GoingPast]
"""A step ticked as done, and what it goes past; what the sheet tells is answered."""


def past_of_sheet(
    draft: Draft, now: Iterable[Advice], whys: Mapping[str, tuple[str, str]]
) -> Iterator[Asked]:
    """Give the steps a drafted sheet logs that go past something.

    `now` is what is advised of the records without the sheet; `whys` are the reasons
    given before, by the ids of steps.
    """
    every = tuple(now)
    advisor = Advisor()
    acts = [*draft.made(StepDone)]
    for at, act in enumerate(acts):
        past = going_past(_alone(draft, draft.snapshot, act), every)
        if _may_be_over(past):
            later = {one.id for one in acts[at:]}
            before = (one for one in draft.records if one.id not in later)
            snapshot = _with(draft.snapshot, before)
            told = advisor.update(snapshot, draft.build())
            past = going_past(_alone(draft, snapshot, act), told.open)
        step = draft.snapshot.find(act.step, Step)
        past.looked_at = [False for tick in past.ticks if tick.sort]
        past.reasoned_before(*whys.get(step.id if step else "", ("", "")))
        if step is not None and (past.waits or past.ticks):
            yield step, past


def may_be_over(draft: Draft, now: Iterable[Advice]) -> bool:
    """Tell whether what is asked hangs on the sheet: then it has to be worked out."""
    every = tuple(now)
    return any(
        _may_be_over(going_past(_alone(draft, draft.snapshot, act), every))
        for act in draft.made(StepDone)
    )


def _may_be_over(past: GoingPast) -> bool:
    return bool(past.waits) or any(not tick.sort for tick in past.ticks)


def _alone(draft: Draft, snapshot: Snapshot, act: StepDone) -> Draft:
    """Give a draft of one act and of what else the sheet tells, but of no other act."""
    alone = Draft(snapshot, draft.now, draft.build())
    alone.new = [one for one in draft.new if one is act or type(one) is not StepDone]
    return alone


def _with(snapshot: Snapshot, records: Iterable[Record]) -> Snapshot:
    return with_records(snapshot, (Stored(one, "", "") for one in records))
