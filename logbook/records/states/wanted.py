"""Which size was wanted of what came out otherwise: as drawn, or another than drawn.

“Should be 51” of a neck drawn 50 says what the drawing ought to have, not what it has.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.happenings import Deviation, Note
from logbook.records.kinds.words import Blame
from logbook.records.sizes.definition import dimension
from logbook.records.states.read_now import differs
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Wanted:
    """The size `said` to be wanted; `drawn` is None where no drawing's is on record.

    `revision` draws it. `missed` where the drawing is not to blame: a size that only
    this shop missed is the one it was to make.
    """

    said: Quantity
    drawn: Quantity | None
    revision: Revision | None
    missed: bool

    @property
    def as_drawn(self) -> bool:
        """Tell whether what was wanted is what the drawing has."""
        if self.drawn is None:
            return self.missed
        return not differs(self.drawn, self.said)


def wanted(
    snapshot: Snapshot, entry: Deviation, revision: Revision | None
) -> Wanted | None:
    """Give what was wanted beside what a revision draws; None where nobody said it."""
    if entry.wanted is None:
        return None
    item = snapshot.find(entry.characteristic, Characteristic)
    if item is not None and only_wanted(snapshot, item):
        return Wanted(entry.wanted, None, revision, missed=False)
    missed = entry.met_by_others is not Blame.DRAWING
    drawn = _drawn(snapshot, entry, revision)
    if drawn is not None and drawn.dimension != entry.wanted.dimension:
        drawn = None
    return Wanted(entry.wanted, drawn, revision, missed)


_OUGHT = re.compile(
    r"(?i)\b(?:should|shoud|ought|supposed|must|ha(?:s|ve) to|needs? to|wants? to)\b"
)
"""Words that say what a size has to be; of a drawing there is nothing in them."""


def _drawn(
    snapshot: Snapshot, entry: Deviation, revision: Revision | None
) -> Quantity | None:
    """Give the size drawn; not one known only by what this entry says it should be."""
    item = snapshot.find(entry.characteristic, Characteristic)
    if item is None:
        return None
    drawn = dimension(snapshot, revision, item).nominal
    blamed = entry.met_by_others is Blame.DRAWING
    own = item.nominal == drawn and _said_only(entry, item)
    return None if own and blamed else drawn


def _said_only(entry: Deviation, item: Characteristic) -> bool:
    """Tell whether a size is known by what an entry says it should be, and no more."""
    with_it = item.when == entry.when and item.nominal == entry.wanted
    return with_it and _OUGHT.search(entry.title) is not None


_DRAWN = re.compile(r"(?i)\b(?:drawn|drawing|nominal)\b")


def only_wanted(snapshot: Snapshot, item: Characteristic) -> bool:
    """Tell whether a size is one that somebody wanted, and that no drawing gives."""
    if item.nominal is None or item.lower_limit or item.upper_limit:
        return False
    told = [
        one
        for one in snapshot.mentions(item, Deviation)
        if snapshot.find(one.characteristic) is item and _said_only(one, item)
    ]
    if not told:
        return False
    part = snapshot.find(item.part, Part)
    notes = snapshot.mentions(part, Note) if part is not None else ()
    return not any(
        _DRAWN.search(one.title) and item.title.casefold() in one.title.casefold()
        for one in notes
    )
