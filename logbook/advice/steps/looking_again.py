"""What a step closed over unseen, though a reason was given: it is to be looked at.

“It can be opened again” is a reason to go on, and none to forget it. The reminder
stands until somebody says that it was seen; who said so at once is not reminded.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from logbook.advice.ground.advice import Advice
from logbook.advice.steps.passing import Why, add_override
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Failure, Override
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import OverrideReason
from logbook.records.making.drafts import Draft

LOOKED = "looked at: "
"""What the title of an entry begins with that says so."""
PAST = "past "
"""What the key of advice begins with that a step left something open."""


def to_look_at(advice: Iterable[Advice]) -> tuple[Advice, ...]:
    """Give what was gone past as a step closed, and was not seen since."""
    return tuple(
        one
        for one in advice
        if one.key.startswith(PAST)
        and one.passed not in ("", OverrideReason.CHECKED.value)
    )


def look_words(one: Advice) -> str:
    """Say what is to be looked at."""
    return f"look again: {one.statement.removeprefix('gone past: ')}"


def looked_at(draft: Draft, step: Step) -> Override:
    """Draft that what a step closed over unseen was looked at since, and is so."""
    why = Why(OverrideReason.CHECKED)
    entry = add_override(draft, step.title, step.ref, why)
    return draft.amend(replace(entry, title=f"{LOOKED}{step.title}"))


def found_not_so(draft: Draft, step: Step, left: str) -> Failure:
    """Draft that what a step closed over was looked at since, and is not so.

    It stays to be looked at until the step is done once more.
    """
    made = draft.snapshot.find(step.makes, Part)
    return draft.add(
        Failure(
            id=new_id(),
            title=f"looked at, and not so: {left}",
            when=draft.when,
            build=draft.build().ref,
            step=step.ref,
            part=made.ref if made else None,
        )
    )
