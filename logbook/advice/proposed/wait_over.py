"""A declared wait that an entry says the end of: “until it lights”, and it lights.

Words are no proof, so that it is asked; what was said is then the reason.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.advice.steps.passing import end_hold
from logbook.records.kinds.assembling import Hold, Step
from logbook.records.kinds.happenings import Entry, Override, StepDone
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.states.held_for import holds_in, is_of_a_day
from logbook.records.together.likeness import stems
from logbook.records.together.snapshot import Snapshot

_LATELY = 200
"""Entries that are looked at, the newest ones."""
_NOT = re.compile(
    r"(?i)\b(?:not|no|never|nor|neither|cannot|without|until|if|when|once|should|must|"
    r"will|still to)\b|n[’']t\b|\?"
)
_ACCEPTS = "yes"
_OTHERWISE = "it still waits"


def wait_over(snapshot: Snapshot) -> Iterator[Proposal]:
    """Ask of each declared wait whether what an entry says is what it waits for."""
    for hold in snapshot.all(Hold):
        ends = stems(hold.until)
        step = snapshot.find(hold.step, Step)
        if not ends or step is None or is_of_a_day(hold.until):
            continue
        entry = next(_saying(snapshot, hold, step, ends), None)
        if entry is not None and not _is_over(snapshot, hold, step, entry):
            yield _asking(hold, step, entry)


def _saying(
    snapshot: Snapshot, hold: Hold, step: Step, ends: frozenset[str]
) -> Iterator[Entry]:
    """Give the entries, the newest first, that say all that a wait waits for."""
    for entry in list(reversed(snapshot.entries))[:_LATELY]:
        if isinstance(entry, Override) or _NOT.search(entry.title):
            continue
        if isinstance(entry, StepDone) and entry.step and entry.step.id == step.id:
            continue
        if ends <= stems(entry.title) and holds_in(
            snapshot, hold, snapshot.find(entry.build, Build)
        ):
            yield entry


def _is_over(snapshot: Snapshot, hold: Hold, step: Step, entry: Entry) -> bool:
    """Tell whether the step of a wait is done in that build, or it was gone past."""
    called = {name.casefold() for name in (hold.title, hold.because) if name}
    for other in snapshot.entries:
        mine = entry.build is None or other.build is None
        if not mine and other.build != entry.build:
            continue
        if isinstance(other, StepDone) and other.step and other.step.id == step.id:
            return True
        if isinstance(other, Override) and other.hold.casefold() in called:
            return True
    return False


def _asking(hold: Hold, step: Step, entry: Entry) -> Proposal:
    until = hold.until.strip().removeprefix("until ")

    def take(draft: Draft, answer: str) -> None:
        if not is_yes(answer):
            raise not_accepted("the wait", answer, f"{_ACCEPTS}; n: {_OTHERWISE}")
        over = end_hold(draft, hold.title, step.ref)
        build = entry.build or over.build
        draft.amend(replace(over, build=build, because=entry.title, about=(entry.ref,)))

    return Proposal(
        key=f"wait over {hold.id} {entry.id}",
        topic="wait",
        about=entry.ref,
        question=f"“{entry.title}”: “{step.title}” waited until {until}; is it so now?",
        buys=f"“{step.title}” waits no more, with that as the reason",
        accepts=_ACCEPTS,
        inputs=(entry.ref, hold.ref, step.ref),
        take=take,
        otherwise=_OTHERWISE,
    )
