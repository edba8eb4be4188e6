"""What goes on being told otherwise once a cure is amended: known faults saved before.

What to do now is put on record with a known fault, in words of its own: it does not
follow the cure of the failure that led to it.
"""

from __future__ import annotations

from collections.abc import Iterator

from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import ErratumStatus
from logbook.records.together.references import is_of
from logbook.records.together.snapshot import Snapshot

_CLOSED = (ErratumStatus.REJECTED, ErratumStatus.WITHDRAWN)


def still_told(snapshot: Snapshot, before: Record, after: Record) -> Iterator[str]:
    """Say which known faults of an entry say what to do by another cure than now."""
    if not isinstance(before, Failure | Deviation) or type(after) is not type(before):
        return
    assert isinstance(after, Failure | Deviation)
    if before.cure == after.cure:
        return
    for fault in snapshot.mentions(before, Erratum):
        came_of = any(is_of(ref, before) for ref in fault.from_entries)
        if came_of and fault.do_this and fault.status not in _CLOSED:
            yield (
                f"the known fault “{fault.title}” {fault.id} still says to do: "
                f"“{fault.do_this}”; if that changes too, open it"
            )
