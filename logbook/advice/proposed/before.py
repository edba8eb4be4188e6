"""What has to be done before what, told in words, for the order of work.

“Put the rivet nuts into the base before the bed goes on”, “had to take the bed off
again to put two rivet nuts in”: who builds it next must read it before, not after.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from logbook.advice.ground.in_words import parts_in, step_for
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.advice.steps.step_words import BY_PAST, imperative
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import Entry, Failure, Note, StepDone
from logbook.records.kinds.ids import new_id
from logbook.records.making.drafts import Draft
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot

_VERBS = "|".join(sorted({*BY_PAST, *BY_PAST.values()}, key=len, reverse=True))
_BEFORE = re.compile(
    rf"(?i)^(?:.*[,;:]\s*)?(?P<first>(?:{_VERBS})\s+.+?)\s+before\s+(?P<then>[^,;]+)"
)
_GOES = re.compile(
    r"(?i)^(?:.*[,;:]\s*)?(?P<what>[^,;]+?)\s+"
    r"(?:goes|go|has to go|must go|comes|come)\s+"
    r"(?P<where>in|on|into\s+[^,;]+?|onto\s+[^,;]+?)\s+before\s+(?P<then>[^,;]+)"
)
_UNDONE = re.compile(
    r"(?i)\b(?:had to|have to|must)\s+(?:take|undo|open|remove|unscrew|get|pull)\s+"
    r"(?P<then>.+?)\s+(?:off|out|apart|open|again)\b.*?\bto\s+"
    rf"(?P<first>(?:{_VERBS})\s+[^,;]+)"
)
_PRONOUN = re.compile(r"(?i)\b(?:it|them)\b")
_SUBJECT = re.compile(
    r"(?i)^(?:the\s+)?(?P<what>[^,;]+?)\s+(?:is|are|was|were|got|gets?|falls?|fell|"
    r"stays?|cannot|can't)\b"
)
_ACCEPTS = "“yes”, or what comes first in words, as “put two rivet nuts into the base”"
_LEAD = re.compile(r"(?i)^(?:always|please|better|first|then|so|next time)\s+")


@dataclass(frozen=True, slots=True)
class _Told:
    """What comes first, as a step's name, and the step it comes before."""

    first: str
    then: Step


def before(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose what has to be done first to the step that it must come before."""
    told: tuple[Entry, ...] = (
        *snapshot.all(Note), *snapshot.all(StepDone), *snapshot.all(Failure),
    )  # fmt: skip
    for entry in told:
        found = _told(snapshot, entry.title)
        if found is None or folded(found.first) == folded(found.then.title):
            continue
        known = _step(snapshot, found.first)
        if known is None or known.ref.id not in {ref.id for ref in found.then.after}:
            yield _proposal(entry, found, known)


def _told(snapshot: Snapshot, title: str) -> _Told | None:
    if hit := _UNDONE.search(title):
        first = hit["first"]
    elif hit := _GOES.match(title):
        first = f"put {hit['what']} {hit['where']}"
    elif hit := _BEFORE.match(title):
        first = hit["first"]
    else:
        return None
    first = _named(first, title)
    then = hit["then"]
    steps = (step_for(snapshot, part, then) for part in parts_in(snapshot, then))
    step = next(filter(None, steps), None) or step_for(snapshot, None, then)
    if step is None or not first:
        return None
    return _Told(imperative(_LEAD.sub("", first.strip())), step)


def _named(first: str, title: str) -> str:
    """Say what “them” is by the subject of the line; empty where nothing says it."""
    if not _PRONOUN.search(first):
        return first
    subject = _SUBJECT.match(title)
    return _PRONOUN.sub(f"the {subject['what']}", first, count=1) if subject else ""


def _step(snapshot: Snapshot, name: str) -> Step | None:
    return next(iter(snapshot.named(name, Step)), None)


def _proposal(entry: Entry, found: _Told, known: Step | None) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        name = found.first if is_yes(answer) else imperative(answer)
        if not name.strip():
            raise not_accepted("what comes first", answer, _ACCEPTS)
        step = known if is_yes(answer) else _step(draft.snapshot, name)
        _put_first(draft, step or _new(draft, name), found.then)

    return Proposal(
        key=f"before {entry.id}",
        topic="step",
        about=entry.ref,
        question=f"must “{found.first}” be done before “{found.then.title}”?",
        buys="the guide has it as a step of its own, in its place",
        accepts=_ACCEPTS,
        inputs=(entry.ref, found.then.ref),
        take=take,
    )


def _new(draft: Draft, name: str) -> Step:
    uses = tuple(one.ref for one in parts_in(draft.snapshot, name))
    return Step(id=new_id(), title=name, when=draft.when, uses=uses)


def _put_first(draft: Draft, first: Step, then: Step) -> None:
    """Give a step the number of another, and move that and all behind it up by one."""
    place = then.number
    if not 0 < first.number < place:
        for step in draft.snapshot.all(Step):
            moves = step.number >= place > 0 and step.id not in {first.id, then.id}
            if moves:
                draft.amend(replace(step, number=step.number + 1))
        first = replace(first, number=place)
        place = place + 1 if place else 0
    known = first.id in draft.snapshot
    (draft.amend if known else draft.add)(first)
    draft.amend(replace(then, number=place, after=(*then.after, first.ref)))
