"""What a temperature lacks to be compared: the room, the hours, the place."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.proposed.proposal import Proposal, not_accepted
from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Conditions, Failure
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot

_SPLIT = re.compile(r"\s*[,;]\s*|\s+and\s+")
_LEAD = re.compile(r"(?i)^(?:after|room|in|at|the|a)\s+")


def conditions(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose to complete a failure told with a bare temperature."""
    for failure in snapshot.all(Failure):
        held = failure.conditions
        if held is None or held.temperature is None:
            continue
        if held.room is None or held.after is None:
            yield _proposal(snapshot, failure, held, held.temperature)


def _proposal(
    snapshot: Snapshot, failure: Failure, held: Conditions, hot: Quantity
) -> Proposal:
    part = snapshot.find(failure.part, Part)
    name = f"{part.title}: " if part else ""
    asked = [
        words
        for words, lacks in (
            ("how warm was the room", held.room is None),
            ("after how long", held.after is None),
            ("read where", not (held.place or failure.where)),
        )
        if lacks
    ]
    accepts = "what is known of it, as “22 °C, 2 h, at the window”"

    def take(draft: Draft, answer: str) -> None:
        found = _answer(answer, accepts)
        draft.amend(replace(failure, conditions=_joined(held, found)))

    return Proposal(
        key=f"conditions {failure.id}",
        topic="conditions",
        about=failure.ref,
        question=f"{name}{hot} — {', '.join(asked)}?",
        buys="another builder can compare how far above the room it was",
        accepts=accepts,
        inputs=(failure.ref,),
        take=take,
    )


def _answer(answer: str, accepts: str) -> Conditions:
    found = Conditions()
    for piece in filter(None, (one.strip() for one in _SPLIT.split(answer))):
        said = _quantity(piece)
        if said is None:
            found = replace(found, place=f"{found.place} {piece}".strip())
        elif said.dimension == "temperature":
            found = replace(found, room=said)
        elif said.dimension == "time":
            found = replace(found, after=said)
        else:
            raise not_accepted("room and time", piece, accepts)
    if found == Conditions():
        raise not_accepted("room and time", answer, accepts)
    return found


def _quantity(text: str) -> Quantity | None:
    """Read a quantity with a unit of its own; other words are a place."""
    bare = re.sub(r"(?i)\s+(?:room|in the room)$", "", _LEAD.sub("", text))
    if not any(sign.isdigit() for sign in bare):
        return None
    try:
        return parse_quantity(bare)
    except BadInput:
        return None


def _joined(held: Conditions, found: Conditions) -> Conditions:
    """Give what was known, completed; nothing said before is replaced."""
    return replace(
        held,
        room=held.room or found.room,
        after=held.after or found.after,
        place=held.place or found.place,
    )
