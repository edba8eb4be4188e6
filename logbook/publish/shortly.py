"""What to do about a fault in few words, where the page says it in full elsewhere.

What was tried and did not hold is told once, with the fault; at part and step stands
that nothing holds, and what was named meanwhile.
"""

from __future__ import annotations

import re

from logbook.advice.faults.doing import MEANWHILE, NO_CURE, NOTHING_DRAWN
from logbook.advice.faults.helped import LABELS

_HEADS = "|".join((MEANWHILE, *(one.capitalize() for one in LABELS)))
_NAMED = re.compile(rf"\. (?:{_HEADS}): .*", re.DOTALL)


def shortly(do: str) -> str:
    """Give an instruction without the tale of what did not hold before it.

    An older instruction that another takes the place of stays: it may say in which
    order.

    >>> shortly("no cure on record has held yet: “file it” was done, and it came back")
    'no cure on record has held yet'
    """
    for head in (NO_CURE, NOTHING_DRAWN):
        if do.startswith(head):
            named = _NAMED.search(do)
            return head + (named[0] if named else "")
    return do
