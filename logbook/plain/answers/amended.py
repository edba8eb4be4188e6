"""A line that changes an entry on record instead of telling a fact of its own."""

from __future__ import annotations

from dataclasses import replace

from logbook.plain.understanding import Doubt, Understanding
from logbook.records.kinds.record import Record

PUT_RIGHT = "put it right"
OF_THAT = "yes, of that"
RETRACT = "it is not so"
OWN_LINE = "a line of its own"


def asked_to_amend(
    line: Understanding, doubt: Doubt, before: Record, after: Record
) -> Understanding:
    """Give the line, asked first whether it changes an entry, and into what."""
    return replace(line, doubts=(doubt, *line.doubts), amends=(before, after))


def amending(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the line as that change where so answered, else as what it is by itself."""
    if answer in (PUT_RIGHT, OF_THAT, RETRACT):
        return replace(line, doubts=(), confidence=1.0)
    left = tuple(one for one in line.doubts if one is not doubt)
    return replace(line, doubts=left, amends=None)
