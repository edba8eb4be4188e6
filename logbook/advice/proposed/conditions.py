"""What a temperature lacks to be compared: the room, the hours, the place.

One question for all that a part was told to feel on one day: its room was one room.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from logbook.advice.ground.material import material_of, row_for
from logbook.advice.proposed.proposal import Proposal, not_accepted
from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import (
    Conditions,
    Declined,
    Failure,
    Reading,
    Run,
)
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot
from logbook.shop.tables import table

_SPLIT = re.compile(r"\s*[,;]\s*|\s+and\s+")
_LEAD = re.compile(r"(?i)^(?:after|room|in|at|the|a)\s+")
_ACCEPTS = "what is known of it, as “22 °C, 2 h, at the window”"


@dataclass(frozen=True, slots=True)
class _Told:
    """An entry that tells of a temperature, and what is known with it."""

    entry: Failure | Run
    part: Part | None
    hot: Quantity
    lacks_room: bool
    lacks_hours: bool
    place: str

    @property
    def key(self) -> str:
        return f"conditions {self.entry.id}"

    @property
    def counts(self) -> bool:
        """Tell whether it can be compared."""
        return not (self.lacks_room or self.lacks_hours)

    def is_told_again_by(self, other: _Told) -> bool:
        """Tell whether the same was told since, with the room and the hours."""
        return (
            other.counts
            and other.part is self.part is not None
            and other.entry.when >= self.entry.when
            and self.place.casefold() in other.place.casefold()
        )


def conditions(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose to complete what was told with a bare temperature, part by part."""
    refused = {one.proposal for one in snapshot.all(Declined)}
    days: dict[tuple[str, str], list[_Told]] = {}
    every = [*_told(snapshot)]
    for told in every:
        if told.counts or any(map(told.is_told_again_by, every)):
            continue
        of = told.part.id if told.part else told.entry.id
        together = days.setdefault((of, f"{told.entry.when:%Y%m%d}"), [])
        if told.key in refused:  # and with it what it was asked together with
            together.clear()
        else:
            together.append(told)
    for together in days.values():
        if together:
            yield _proposal(together)


def _told(snapshot: Snapshot) -> Iterator[_Told]:
    for failure in snapshot.all(Failure):
        held = failure.conditions
        if held is None or held.temperature is None:
            continue
        part, place = snapshot.find(failure.part, Part), held.place or failure.where
        lacks = held.room is None, held.after is None
        yield _Told(failure, part, held.temperature, *lacks, place)
    for run in snapshot.all(Run):
        part = part_of(snapshot, run)
        if part is not None and _softens(snapshot, part, run):
            for reading in run.readings:
                if hot := _felt(snapshot, part, reading):
                    lacks = reading.room is None, reading.after is None
                    yield _Told(run, part, hot, *lacks, _named_place(reading))


def _softens(snapshot: Snapshot, part: Part, run: Run) -> bool:
    """Tell whether a part is of a material that is known to soften with heat."""
    material = material_of(snapshot, part, snapshot.find(run.piece, Piece))
    return bool(material) and row_for(table("heat", "softening"), material) is not None


def _felt(snapshot: Snapshot, part: Part, reading: Reading) -> Quantity | None:
    """Give a temperature read on a part."""
    value = reading.value
    if not isinstance(value, Quantity) or value.dimension != "temperature":
        return None
    what = snapshot.find(reading.what, Characteristic)
    owner = snapshot.find(what.part, Part) if what else part
    drawn = what is not None and what.nominal is not None  # as a setting is
    return None if drawn or owner is not part else value


def _named_place(reading: Reading) -> str:
    """Give where it was read: at a place, or by the name of what was read."""
    return reading.place or re.sub(r"\s*temperature\s*", "", reading.what.name).strip()


def _proposal(together: Sequence[_Told]) -> Proposal:
    last = together[-1]
    name = f"{last.part.title}: " if last.part else ""
    asked = [
        words
        for words, lacks in (
            ("how warm was the room", any(one.lacks_room for one in together)),
            ("after how long", any(one.lacks_hours for one in together)),
            ("read where", not all(one.place for one in together)),
        )
        if lacks
    ]
    entries = tuple({one.entry.id: one.entry for one in together}.values())
    felt = ", ".join(dict.fromkeys(str(one.hot) for one in together))

    def take(draft: Draft, answer: str) -> None:
        found = read_conditions(answer)
        for entry in entries:
            draft.amend(_completed(entry, together, found))

    return Proposal(
        key=last.key,
        topic="conditions",
        about=last.entry.ref,
        question=f"{name}{felt} — {', '.join(asked)}?",
        buys="another builder can compare how far above the room it was",
        accepts=_ACCEPTS,
        inputs=tuple(entry.ref for entry in entries),
        take=take,
    )


def _completed(
    entry: Failure | Run, together: Sequence[_Told], found: Conditions
) -> Record:
    """Give an entry with what was found; nothing said before is replaced."""
    if isinstance(entry, Failure):
        held = entry.conditions or Conditions()
        return replace(entry, conditions=_joined(held, found))
    bare = {one.hot for one in together if one.entry is entry}
    return replace(
        entry,
        readings=tuple(
            _read(one, found) if one.value in bare else one for one in entry.readings
        ),
    )


def _read(reading: Reading, found: Conditions) -> Reading:
    return replace(
        reading,
        room=reading.room or found.room,
        after=reading.after or found.after,
        place=reading.place if _named_place(reading) else found.place,
    )


def read_conditions(answer: str) -> Conditions:
    """Read how warm the room was, after how long, and where: “22 °C, 2 h, at the face”.

    Raises:
        BadInput: a figure in it is no temperature and no time, or it says nothing.
    """
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
            raise not_accepted("room and time", piece, _ACCEPTS)
    if found == Conditions():
        raise not_accepted("room and time", answer, _ACCEPTS)
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
