"""The part a fault is about, and faults of the drawing that no errata can place."""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.made_public import Erratum
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot


def faulty_part(snapshot: Snapshot, entry: Deviation | Failure) -> Part | None:
    """Give the part a fault is about: named, else the one its place names.

    `collar, right face` names the collar; a place that names several names none. A
    known fault saved from the entry may name it too.
    """
    if (part := part_of(snapshot, entry)) is not None:
        return part
    for saved in snapshot.mentions(entry, Erratum):
        if (part := snapshot.find(saved.part, Part)) is not None:
            return part
    where = entry.where if isinstance(entry, Failure) else entry.place
    found = tuple(_named_in(snapshot, where)) if where else ()
    return found[0] if len(found) == 1 else None


def _named_in(snapshot: Snapshot, where: str) -> Iterator[Part]:
    for part in snapshot.all(Part):
        if re.search(rf"(?i)(?<![\w-]){re.escape(part.title)}(?![\w-])", where):
            yield part
