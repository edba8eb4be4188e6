"""What an entry has put on record, where a list calls it by that and not by its kind.

“part collar” and “crossbar length drawn 179.7 ±0.1” are kept as notes, word for word;
what they are is the part and the size that were saved in the same moment. What a step
closed over and was seen since is gone past no more.
"""

from __future__ import annotations

from logbook.advice.steps.looking_again import LOOKED
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Note, Override
from logbook.records.kinds.record import Record
from logbook.records.together.snapshot import Snapshot

DRAWN, PART, SEEN = "as drawn", "new part", "seen since"


def put_on_record(snapshot: Snapshot, record: Record) -> str:
    """Give what an entry put on record, in the words of a list; empty: its kind."""
    if isinstance(record, Override):
        return SEEN if record.title.startswith(LOOKED) else ""
    part = snapshot.find(record.part, Part) if isinstance(record, Note) else None
    if part is None:
        return ""
    for size in snapshot.all(Characteristic):
        if size.when == record.when and size.part.id == part.id:
            return DRAWN
    return PART if part.when == record.when else ""
