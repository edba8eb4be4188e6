"""What an act told in the shell goes past: what waits, and what nobody ticked.

Where somebody is there to answer it is asked about; else the fact is kept, and what
it went past is said aloud. Nothing is ever ticked that was not said.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass

from logbook.advice.advisor import Advisor
from logbook.advice.ground.advice import Advice
from logbook.advice.steps.passing import pass_all, passing, past_words
from logbook.advice.steps.ticks import (
    Tick,
    go_past_ticks,
    not_ticked_words,
    put_ticks,
    to_tick,
)
from logbook.cli.asking import Asking
from logbook.records.kinds.happenings import StepDone
from logbook.records.making.drafts import Draft


@dataclass(frozen=True, slots=True)
class Past:
    """What an act goes past."""

    waits: tuple[Advice, ...] = ()
    ticks: tuple[Tick, ...] = ()

    def __bool__(self) -> bool:
        """Tell whether there is anything."""
        return bool(self.waits or self.ticks)


def goes_past(draft: Draft) -> Past:
    """Give what waits and what is to be ticked before the steps in a draft."""
    if not any(isinstance(record, StepDone) for record in draft.new):
        return Past()
    build = draft.build()
    known = build if build.id in draft.snapshot else None
    advice = Advisor().update(draft.snapshot, known).open
    return Past(passing(draft, advice), to_tick(draft, advice))


def asked_past(draft: Draft, past: Past, asking: Asking) -> bool:
    """Ask about it and draft the answers; tell whether it was done.

    Raises:
        NeedsAnswer: nobody is there to answer.
    """
    if past.waits:
        why = asking.past([wait.statement for wait in past.waits])
        if why is None:
            return False
        pass_all(draft, past.waits, why)
        go_past_ticks(draft, why)
        return True
    ticked = asking.ticked(past.ticks)
    put_ticks(draft, ticked)
    left = [tick for tick in past.ticks if tick not in ticked]
    if not left:
        return True
    why = asking.past([not_ticked_words(left)])
    if why is not None:
        go_past_ticks(draft, why)
    return why is not None


def tell_past(past: Past) -> None:
    """Say what was gone past, where nobody was asked."""
    for wait in past.waits:
        print(past_words(wait), file=sys.stderr)
    if past.ticks:
        print(f"gone past: {not_ticked_words(past.ticks)}", file=sys.stderr)
