"""What a reference leads to: the record it means, the part behind it."""

from __future__ import annotations

from logbook.records.kinds.design import Part
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Source
from logbook.records.together.snapshot import Snapshot

_LEADS_TO_PART = (
    "part", "piece", "revision", "characteristic", "of", "makes", "opens",
)  # fmt: skip


def part_of(snapshot: Snapshot, record: Record) -> Part | None:
    """Give the part a record is about, through its piece or revision if need be.

    What it is `about` comes last. References that go round in a circle end.
    """
    seen: set[str] = set()
    waiting = [record]
    while waiting:
        here = waiting.pop(0)
        if isinstance(here, Part):
            return here
        if here.id in seen:
            continue
        seen.add(here.id)
        refs = [getattr(here, name, None) for name in _LEADS_TO_PART]
        found = (snapshot.find(ref) for ref in (*refs, *getattr(here, "about", ())))
        waiting = [*(target for target in found if target is not None), *waiting]
    return None


def is_bought(snapshot: Snapshot, part: Ref | None) -> bool:
    """Tell whether a reference leads to a part that is bought."""
    found = snapshot.find(part, Part)
    return found is not None and found.source is Source.BOUGHT


def refers(snapshot: Snapshot, ref: Ref | None, record: Record) -> bool:
    """Tell whether a reference leads to a record of the snapshot."""
    if ref is not None and ref.id:
        return ref.id == record.id
    return snapshot.find(ref) is record


def is_of(ref: Ref, record: Record) -> bool:
    """Tell whether a reference means this record, by id or, without one, by name."""
    if ref.id:
        return ref.id == record.id
    names = {record.title.casefold(), *(name.casefold() for name in record.formerly)}
    return ref.name.casefold() in names
