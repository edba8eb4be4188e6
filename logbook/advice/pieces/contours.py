"""Which way a cut along a contour moves a size: the kerf eats on both sides of a line.

Cut on its line, an opening comes out larger by a kerf and an outside smaller by the
same, while the distance of two holes stays. So one figure holds for all of them.
"""

from __future__ import annotations

import re

from logbook.advice.pieces.mates import INSIDE, WHERE_ONLY, words_of
from logbook.records.kinds.design import Characteristic

_CONTOUR = re.compile(r"(?i)laser|water[ -]?jet|plasma|\bcontour")
_OPEN = frozenset({*INSIDE, "aperture", "window", "cutout", "hole", "notch"})


def is_contour(process: str) -> bool:
    """Tell whether a process cuts along a line and takes a kerf out of it."""
    return _CONTOUR.search(process) is not None


def contour_sign(process: str, what: Characteristic) -> int:
    """Give 1 where more kerf makes a size larger, −1 smaller, 0 where neither.

    Of a process that cuts along no contour every size counts as it is: 1.
    """
    if not is_contour(process):
        return 1
    words = words_of(what.title)
    if not WHERE_ONLY.isdisjoint(words):
        return 0
    return 1 if not _OPEN.isdisjoint(words) else -1
