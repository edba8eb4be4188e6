"""The head of a line that tells of a fault: what happened, without cause and cure.

What was typed stays in the record as it is; a page that gives cause and cure in places
of their own need not say them twice, and a heading is read at a glance.
"""

from __future__ import annotations

import re

from logbook.records.happenings import Deviation, Failure
from logbook.records.likeness import stems

_LEAD = re.compile(
    r"(?i)[\s,;:.–-]*\b(?:because(?: of)?|since|as|due to|caused by|for|so|and|then|"
    r"fixed by|cured by|fix|cure|by|with)?[\s,;:.–-]*$"
)
"""What joins a clause to the one before it, and is left over where it is cut off."""

_SHORTEST = 2
"""Words a heading has at least; a shorter one would not say what happened."""


_LEFT = 2
"""Words of the rest that may be in neither cause nor cure: “next time”."""


def headline(entry: Failure | Deviation) -> str:
    """Give the title of a fault up to where its cause or its cure begins.

    Where the rest says more than these two, it stays.
    """
    title = entry.title
    cause = entry.cause.said if isinstance(entry, Failure) and entry.cause else ""
    low = title.casefold()
    starts = [low.find(said.casefold()) for said in (cause, entry.cure) if said]
    cut = min((at for at in starts if at > 0), default=0)
    if not cut or len(low) != len(title):
        return title
    head = _LEAD.sub("", title[:cut])
    more = stems(title[cut:]) - stems(f"{cause} {entry.cure}")
    return head if len(head.split()) >= _SHORTEST and len(more) <= _LEFT else title
