"""Which reading is off its drawing, by the limits of the part's current revision."""

from __future__ import annotations

from collections.abc import Iterable

from logbook.quantity import Absent, Quantity
from logbook.records.making import Draft
from logbook.records.model import Characteristic, Fit, Part, Reading
from logbook.records.state import current_revision, dimension


def off_drawing(
    draft: Draft, part: Part, readings: Iterable[Reading]
) -> tuple[Reading, Quantity] | None:
    """Give the first reading that is off its drawn limits, with the size as drawn."""
    if part.id not in draft.snapshot:
        return None
    revision = current_revision(draft.snapshot, part)
    for reading in readings:
        item = draft.snapshot.find(reading.what, Characteristic)
        drawn = dimension(draft.snapshot, revision, item) if item else None
        if drawn is None or drawn.nominal is None or isinstance(reading.value, Absent):
            continue
        if item and any(gap.made_last == item.ref for gap in draft.snapshot.all(Fit)):
            continue  # made to suit its gap: the drawn size is not what it is held to
        same = reading.value.dimension == drawn.nominal.dimension
        if same and drawn.verdict(reading.value) == "off drawing":
            return reading, drawn.nominal
    return None
