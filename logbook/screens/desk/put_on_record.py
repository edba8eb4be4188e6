"""What a plain note has put on record, by which a list calls it.

“part collar” and “crossbar length drawn 179.7 ±0.1” are kept as notes, word for word;
what they are is the part and the size that were saved in the same moment.
"""

from __future__ import annotations

from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Note
from logbook.records.kinds.record import Record
from logbook.records.together.snapshot import Snapshot

DRAWN, PART = "as drawn", "new part"


def put_on_record(snapshot: Snapshot, record: Record) -> str:
    """Give what a note put on record, in the words of a list; empty: nothing."""
    part = snapshot.find(record.part, Part) if isinstance(record, Note) else None
    if part is None:
        return ""
    for size in snapshot.all(Characteristic):
        if size.when == record.when and size.part.id == part.id:
            return DRAWN
    return PART if part.when == record.when else ""
