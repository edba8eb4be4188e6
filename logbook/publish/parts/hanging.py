"""What hangs on a part that is made again: what is fitted to it, and what suits it.

Who replaces a part takes off what the records join to it, and a size that was made to
suit the old one may not suit the new one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logbook.advice.ground.naming import formula_of, meant
from logbook.errors import BadInput
from logbook.records.kinds.assembling import Fit, Joint
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.words import Source
from logbook.records.states.practice import is_practice
from logbook.records.together.references import part_of
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot


def fitted_to(snapshot: Snapshot, part: Part) -> tuple[Part, ...]:
    """Give the parts that a joint holds to a part, no fasteners among them."""
    found: dict[str, Part] = {}
    for joint in snapshot.mentions(part, Joint):
        if is_withdrawn(snapshot, joint):
            continue
        layers = [snapshot.find(layer.part, Part) for layer in joint.layers]
        if part in layers:
            found |= {one.id: one for one in layers if one and one is not part}
    return tuple(one for one in found.values() if one.source is not Source.BOUGHT)


def suited_to(
    snapshot: Snapshot, parts: Iterable[Part]
) -> Iterator[tuple[Characteristic, Part, Fit]]:
    """Give each size made last to suit one of these parts, that part and the gap."""
    wanted = {part.id: part for part in parts}
    for gap in snapshot.all(Fit):
        last = snapshot.find(gap.made_last, Characteristic)
        own = part_of(snapshot, last) if last else None
        if last is None or own is None or is_withdrawn(snapshot, gap):
            continue
        rest = _parts_in(snapshot, gap)
        met = [one for one in rest if one is not own and one.id in wanted]
        if met and not is_practice(snapshot, own):
            yield last, met[0], gap


def _parts_in(snapshot: Snapshot, gap: Fit) -> tuple[Part, ...]:
    """Give the parts whose sizes a gap is reckoned from; none it does not know."""
    try:
        names = formula_of(gap.formula).names
        return tuple(meant(snapshot, name).part for name in names)
    except BadInput:
        return ()
