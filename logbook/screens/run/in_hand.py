"""What is measured with: the instrument used last, and what one can read."""

from __future__ import annotations

from logbook.quantity import Absent, Quantity
from logbook.records.kinds.happenings import Run
from logbook.records.kinds.workshop import Instrument
from logbook.records.together.snapshot import Snapshot


def used_last(snapshot: Snapshot) -> Instrument | None:
    """Give the instrument that the newest run with one names."""
    for run in reversed(snapshot.all(Run)):
        named = [one.instrument for one in run.readings[::-1] if one.instrument]
        for ref in (*named, run.instrument):
            if found := snapshot.find(ref, Instrument):
                return found
    return None


def can_read(instrument: Instrument, value: Quantity | Absent) -> bool:
    """Tell whether a value is of the kind an instrument measures."""
    known = (instrument.uncertainty, instrument.resolution, *instrument.range)
    kinds = {one.dimension for one in known if one is not None}
    return isinstance(value, Quantity) and (not kinds or value.dimension in kinds)
