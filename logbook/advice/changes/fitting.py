"""What a revision fits with, as far as somebody said.

A new revision does not fit what the one before did merely because it came after it.
"""

from __future__ import annotations

from logbook.records.kinds.design import Revision
from logbook.records.together.references import part_of
from logbook.records.together.revisions import revisions_of
from logbook.records.together.snapshot import Snapshot

UNSAID = "nobody has said"


def fits_words(snapshot: Snapshot, revision: Revision) -> str:
    """Say what a revision fits with; where nobody has, what an earlier one does."""
    if revision.mates_with:
        return ", ".join(revision.mates_with)
    part = part_of(snapshot, revision)
    line = revisions_of(snapshot, part) if part else ()
    before = line[: line.index(revision)] if revision in line else ()
    for one in reversed(before):
        if one.mates_with:
            return f"{UNSAID}; {one.title} fits with {', '.join(one.mates_with)}"
    return UNSAID
