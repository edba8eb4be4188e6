"""How new what a known fault is told from is: the day of its newest entry.

A record that is edited carries no date of that, so no page can say when its words last
changed; this is what the records do say.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from logbook.advice.faults.failing import own_faults, since
from logbook.advice.faults.trying import entries_of
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Disposal
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Piece
from logbook.records.together.revisions import revisions_in
from logbook.records.together.snapshot import Snapshot


def newest_entry(snapshot: Snapshot, erratum: Erratum) -> date:
    """Give the day of the newest record a fault is told from, or of its publishing."""
    days = [one.when.date() for one in _sources(snapshot, erratum)]
    return max(filter(None, (*days, erratum.published)))


def _sources(snapshot: Snapshot, erratum: Erratum) -> Iterator[Record]:
    """Give the fault, its entries, what was decided on them, and what came of the cure.

    That is each revision since the cure with its pieces, its own faults and the first
    release that holds it.
    """
    yield erratum
    for entry in entries_of(snapshot, erratum):
        yield entry
        yield from snapshot.mentions(entry, Disposal)
    cure = snapshot.find(erratum.fixed_by, Revision)
    for revision in since(snapshot, cure) if cure else ():
        yield revision
        yield from own_faults(snapshot, revision)
        for piece in snapshot.mentions(revision, Piece):
            yield piece
            yield from snapshot.mentions(piece, Disposal)
        for release in snapshot.all(Release):
            if revision in revisions_in(snapshot, release):
                yield release
                break
