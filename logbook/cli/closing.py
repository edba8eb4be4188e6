"""What an act told in the shell goes past: what waits, and what nobody ticked.

Where somebody is there to answer it is asked about; else the fact is kept, and what
it went past is said aloud. Nothing is ever ticked that was not said.
"""

from __future__ import annotations

import shlex
import sys

from logbook.advice.steps.going_past import GoingPast, going_past
from logbook.advice.steps.passing import past_words
from logbook.advice.steps.ticks import not_ticked_words
from logbook.cli.asking import Asking
from logbook.records.kinds.happenings import StepDone
from logbook.records.making.drafts import Draft


def goes_past(draft: Draft) -> GoingPast:
    """Give what waits and what is to be ticked before the steps in a draft."""
    if not any(isinstance(record, StepDone) for record in draft.new):
        return GoingPast()
    # All advice there is: not for the many lines that tell of no step.
    from logbook.advice.advisor import Advisor

    build = draft.build()
    known = build if build.id in draft.snapshot else None
    return going_past(draft, Advisor().update(draft.snapshot, known).open)


def asked_past(draft: Draft, past: GoingPast, asking: Asking) -> bool:
    """Ask about it and draft the answers; tell whether it was done.

    Raises:
        NeedsAnswer: nobody is there to answer.
    """
    if not asking.past(past):
        return False
    past.put(draft)
    return True


def tell_past(past: GoingPast) -> None:
    """Say what was gone past, where nobody was asked."""
    for wait in past.waits:
        print(past_words(wait), file=sys.stderr)
    if past.ticks:
        print(f"gone past: {not_ticked_words(past.ticks)}", file=sys.stderr)
    if past.waits:
        one = past.waits[0]
        step = f" --step {shlex.quote(one.step.name)}" if one.step else ""
        print(
            f"no reason is on record; say it with: logbook override "
            f'{shlex.quote(one.about.name)}{step} --because "…"',
            file=sys.stderr,
        )
