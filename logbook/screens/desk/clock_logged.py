"""What a clock counted, as work on record: drafted, and known again."""

from __future__ import annotations

from logbook.quantity import parse_quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import Work
from logbook.records.kinds.ids import new_id
from logbook.records.making.drafts import Draft
from logbook.records.states.hours import shown_minutes
from logbook.records.together.snapshot import Snapshot
from logbook.store.typed.work_clock import Clock


def work_draft(draft: Draft, clock: Clock, minutes: int) -> Draft:
    """Draft the time a clock counted as work on its step."""
    step = draft.snapshot.by_id(clock.step, Step)
    time = parse_quantity(f"{minutes} min")
    draft.add(
        Work(
            id=new_id(),
            title=f"{shown_minutes(minutes)} on {clock.subject}",
            when=draft.when,
            build=draft.build().ref,
            step=step.ref if step else None,
            part=step.makes if step else None,
            time=time,
            began=clock.began.replace(microsecond=0),
        )
    )
    return draft


def is_logged(snapshot: Snapshot, clock: Clock) -> bool:
    """Tell whether what a clock counted is on record, wherever it was stopped."""
    return any(is_time_of(work, clock) for work in snapshot.all(Work))


def is_time_of(work: Work, clock: Clock) -> bool:
    """Tell whether work is the time that this clock counted."""
    step = work.step.id if work.step else ""
    return work.began == clock.began.replace(microsecond=0) and step == clock.step
