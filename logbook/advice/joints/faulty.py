"""Which joints go through a part that has a known fault: whoever opens one sees it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from logbook.advice.faults.known import known_faults
from logbook.records.kinds.assembling import Joint
from logbook.records.kinds.design import Part
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import ErratumStatus
from logbook.records.together.snapshot import Snapshot

_NONE = {ErratumStatus.REJECTED, ErratumStatus.WITHDRAWN}
"""What it came to, where it is no known fault any more."""


def faulty_joints(snapshot: Snapshot) -> Mapping[str, tuple[Erratum, ...]]:
    """Give the known faults of the layers of each joint that has any, by its id."""
    of_part: dict[str, list[Erratum]] = defaultdict(list)
    for fault in known_faults(snapshot):
        part = snapshot.find(fault.part, Part)
        if part is not None and fault.status not in _NONE:
            of_part[part.id].append(fault)
    found = {}
    for joint in snapshot.all(Joint):
        parts = (snapshot.find(layer.part, Part) for layer in joint.layers)
        ids = dict.fromkeys(part.id for part in parts if part is not None)
        if faults := [fault for one in ids for fault in of_part.get(one, ())]:
            found[joint.id] = tuple(faults)
    return found


def fault_words(fault: Erratum) -> str:
    """Say which known fault it is, how far it has come, and what to do."""
    by = f" by {fault.fixed_by.name}" if fault.fixed_by else ""
    do = f"; {fault.do_this}" if fault.do_this else ""
    return f"{fault.title} ({fault.status.value}{by}){do}"
