"""What may be typed to state one of the order of work or of gaps, of own parts."""

from __future__ import annotations

from logbook.plain.stated.typed_line import EXAMPLES, GAP, HOLD, JOINT, STEP
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.words import Source
from logbook.records.together.revisions import parts_now
from logbook.records.together.snapshot import Snapshot

_ROOM = {"mm": "0.1 to 0.5", "in": "0.004 to 0.02"}
"""A room to play with that is written in the unit of the project; an example only."""


def example(verb: str, snapshot: Snapshot) -> str:
    """Give a line that states one, of parts and steps on record where there are any."""
    if verb == STEP:
        made = [one for one in parts_now(snapshot) if one.source is not Source.BOUGHT]
        if not made:
            return EXAMPLES[STEP]
        return f"step fit the {made[-1].title}; time 25 min"
    if verb == HOLD:
        steps = [one for one in snapshot.all(Step) if one.number > 0]
        return (
            f"hold {steps[-1].number}: the glue is not dry; until tomorrow"
            if steps
            else EXAMPLES[HOLD]
        )
    return _joint(snapshot) if verb == JOINT else _gap(snapshot)


def _joint(snapshot: Snapshot) -> str:
    made = [one for one in parts_now(snapshot) if one.source is not Source.BOUGHT]
    if len(made) < 2:
        return EXAMPLES[JOINT]
    one, other = [part.title for part in made[:2]]
    return f"joint {one} to {other}: M4x16; layer {one}; layer {other}; nut plain"


def joint_example(snapshot: Snapshot) -> str:
    """Give a plain line that puts a joint on record, of two parts where there are."""
    made = [one for one in parts_now(snapshot) if one.source is not Source.BOUGHT]
    one, other = [part.title for part in made[:2]] if len(made) > 1 else ("lid", "base")
    return f"screwed the {one} to the {other} with M4x16"


def _gap(snapshot: Snapshot) -> str:
    """Give one over the first sizes of two parts; of fewer parts a general one."""
    parts = {part.id: part for part in parts_now(snapshot)}
    first: dict[str, Characteristic] = {}
    for size in snapshot.all(Characteristic):
        if size.part.id in parts and size.name:
            first.setdefault(size.part.id, size)
    if len(first) < 2:
        return EXAMPLES[GAP]
    (one, outer), (other, inner) = list(first.items())[:2]
    name = f"{parts[other].title} in the {parts[one].title}"
    formula = f"{parts[one].name}.{outer.name} - {parts[other].name}.{inner.name}"
    room = _ROOM.get(snapshot.project.unit, _ROOM["mm"])
    return f"gap {name}: {formula}; limits {room}"
