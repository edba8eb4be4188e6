"""Parts that were withdrawn: what is told of one all the same, and what names it still.

A withdrawn part stays on record with all that was said of it, and the releases it went
out with name it; the lists, the guide and the release to come do without it.
"""

from __future__ import annotations

import shlex
from collections.abc import Iterator

from logbook.records.kinds.assembling import Fit, Joint, Step
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Entry, Status
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import State
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.no_part import own_of, parts_named
from logbook.records.together.references import part_of
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot

_TOLD = (Entry, Piece, Revision)
"""What, told of a withdrawn part, may take it for one of the design still."""


def about_withdrawn(draft: Draft) -> Iterator[str]:
    """Say what becomes of what is told of a withdrawn part, and what names it still."""
    told: set[str] = set()
    for record in draft.new:
        part = part_of(draft.snapshot, record) if isinstance(record, _TOLD) else None
        if part is None or part.id in told:
            continue
        if isinstance(record, Status) and draft.snapshot.find(record.of) is part:
            if record.state is State.WITHDRAWN:
                yield from _still_named(draft.snapshot, part)
        elif is_withdrawn(draft.snapshot, part):
            told.add(part.id)
            yield (
                f"{part.title} was withdrawn: this is kept, and the lists and the next "
                "release do without it; if it is a part of the design again: logbook "
                f"status {shlex.quote(part.title)} 'still good'"
            )


def _still_named(snapshot: Snapshot, part: Part) -> Iterator[str]:
    """Say which steps, joints and gaps name a part that is withdrawn now."""
    found = [f"“{one.title}”" for one in _naming(snapshot, part)]
    if found:
        yield f"{', '.join(found)} named {part.title} so far; say each without it"


def _naming(snapshot: Snapshot, part: Part) -> Iterator[Record]:
    named: dict[str, Record] = {}
    for own in own_of(snapshot, part):
        for one in snapshot.mentions(own, Step, Joint, Fit):
            named[one.id] = one
    for gap in snapshot.all(Fit):
        if part.name in parts_named(gap):
            named[gap.id] = gap
    yield from (one for one in named.values() if not is_withdrawn(snapshot, one))
