"""Which size was wanted of what came out otherwise: as drawn, or another than drawn.

“Should be 51” of a neck drawn 50 says what the drawing ought to have, not what it has.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Revision
from logbook.records.kinds.happenings import Deviation
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
    own = item.when == entry.when and item.nominal == entry.wanted == drawn
    blamed = entry.met_by_others is Blame.DRAWING
    return None if own and blamed and _OUGHT.search(entry.title) else drawn
