"""What a job sheet tells before it is saved: what hangs on its readings so far.

A size that is made to suit is held to what was measured for it, on the same sheet too.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from logbook.publish.sheet.boxes import Box, Sort, of_sort
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.happenings import Entry, Run
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot


def may_move_a_gap(
    snapshot: Snapshot, boxes: Iterable[Box], typed: Mapping[int, str]
) -> bool:
    """Tell whether readings are typed on a sheet that asks for a size made to suit."""
    readings = [*of_sort(boxes, Sort.READING)]
    if not any(typed.get(box.number) for box in readings):
        return False
    items = {box.about for box in readings}
    last = (fit.made_last for fit in snapshot.all(Fit))
    return any(ref is not None and ref.id in items for ref in last)


def read_so_far(draft: Draft) -> tuple[Record, ...]:
    """Give the readings of a drafted sheet, with the pieces and builds they make."""
    return tuple(
        one for one in draft.new if isinstance(one, Run) or not isinstance(one, Entry)
    )
