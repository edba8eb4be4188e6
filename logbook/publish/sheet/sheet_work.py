"""The work a job sheet tells: operations done, worked on, or done already."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from logbook.advice.steps.going_past import GoingPast
from logbook.advice.steps.passing import pass_all
from logbook.advice.steps.ticks import Tick, go_past_step, seen
from logbook.errors import BadInput
from logbook.publish.sheet.boxes import Box, Sort, of_sort
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import Note, StepDone, Work
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.making.drafts import Draft
from logbook.records.together.references import is_of

NOT_SEEN = "n"
"""What is kept of a look that was not taken, though its step was done."""


def length_of_time(typed: str) -> Quantity:
    """Read how long something took; a bare number is minutes.

    Raises:
        BadInput: it is no length of time.
    """
    refusal = BadInput(f"“{typed}” is no length of time; accepted: 25, 25 min, 1.5 h")
    try:
        time = parse_quantity(typed, "min")
    except BadInput:
        raise refusal from None
    if time.dimension != "time" or time.value <= 0:
        raise refusal
    return time


def draft_operation(
    draft: Draft,
    step: Step,
    boxes: Sequence[Box],
    typed: Mapping[int, str],
    past: GoingPast,
    *,
    twice: bool,
) -> None:
    """Draft what the boxes of one operation tell, and why it went `past` what waits.

    It is done already where it would be so `twice`.
    """
    ticked = [
        Tick(box.word, box.place, box.label)
        for box in of_sort(boxes, Sort.CHECK)
        if typed[box.number] != NOT_SEEN
    ]
    times = [length_of_time(typed[box.number]) for box in of_sort(boxes, Sort.TIME)]
    done = any(of_sort(boxes, Sort.DONE))
    if done and not twice:
        time = times[0] if times else None
        draft.step_done(step, time=time, **seen(ticked))
        if past.why is not None:
            pass_all(draft, past.waits, past.why)
            if past.unticked:
                go_past_step(draft, step, past.why)
    elif done:
        _beside_what_is_done(draft, step, ticked, times)
    else:
        _not_done(draft, step, ticked, times)
    for box in of_sort(boxes, Sort.NOTE):
        _note(draft, typed[box.number], step.ref)


def _beside_what_is_done(
    draft: Draft, step: Step, ticked: Sequence[Tick], times: list[Quantity]
) -> None:
    """Keep of a step that is on record as done what the sheet tells beyond that."""
    before = [
        one
        for one in draft.snapshot.all(StepDone)
        if one.step and is_of(one.step, step) and not one.undone
    ]
    last = before[-1]
    more = [tick for tick in ticked if tick.name not in getattr(last, tick.sort, ())]
    draft.remarks.append(f"“{step.title}” is done already and is not logged again")
    _not_done(draft, step, more, [time for time in times if time != last.time])


def _not_done(
    draft: Draft, step: Step, ticked: Sequence[Tick], times: list[Quantity]
) -> None:
    """Keep the minutes and the looks of an operation that is not finished."""
    if times:
        draft.add(
            Work(
                id=new_id(),
                title=f"{times[0]} on {step.title}",
                when=draft.when,
                build=draft.build().ref,
                step=step.ref,
                time=times[0],
            )
        )
    said = [
        f"{word}: {', '.join(names)}" for word, names in seen(ticked).items() if names
    ]
    if said:
        _note(draft, f"before “{step.title}” closes: {' · '.join(said)}", step.ref)


def _note(draft: Draft, words: str, about: Ref) -> None:
    draft.add(
        Note(
            id=new_id(),
            title=words,
            when=draft.when,
            build=draft.build().ref,
            about=(about,),
        )
    )
