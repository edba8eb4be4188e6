"""Where a size is measured: at the places that are named, else at those in use."""

from __future__ import annotations

from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Run
from logbook.records.together.references import is_of
from logbook.records.together.snapshot import Snapshot


def places_of(snapshot: Snapshot, item: Characteristic) -> tuple[str, ...]:
    """Give the places a size is measured at; one without a name where none is."""
    if item.places:
        return item.places
    used: dict[str, None] = {}
    for run in snapshot.mentions(item):
        if isinstance(run, Run):
            used.update(
                (r.place, None) for r in run.readings if is_of(r.what, item) and r.place
            )
    return tuple(used) or ("",)
