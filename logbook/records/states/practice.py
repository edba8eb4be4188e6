"""Test pieces: made to learn what a machine does, no part of the finished thing."""

from __future__ import annotations

import re

from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part
from logbook.records.together.references import is_of
from logbook.records.together.snapshot import Snapshot

_NAMED = re.compile(
    r"(?i)\b(?:trial|coupon|practice|swatch|test (?:bend|cut|piece|print|strip))s?\b"
)
"""What a shop calls such a piece (common practice, no source)."""


def is_practice(snapshot: Snapshot, part: Part) -> bool:
    """Tell whether a part is a test piece: called one, and on no line of the list."""
    if not _NAMED.search(part.title):
        return False
    return not any(is_of(line.part, part) for line in snapshot.all(Line))
