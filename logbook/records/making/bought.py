"""Which parts are taken for bought: by their name, or told as what they are bought.

A guide that asks a rebuilder to make a screw is wrong, and nobody sees it at home.
"""

from __future__ import annotations

import re

from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Source
from logbook.records.states.pieces import pieces_of
from logbook.records.together.revisions import revisions_of
from logbook.records.together.snapshot import Snapshot

_NAMED = {
    "screw", "bolt", "nut", "locknut", "washer", "rivet", "insert", "standoff",
    "bearing", "magnet", "spring",
}  # fmt: skip
"""Words in a part's name that say that it is bought."""

_STANDARD = r"(?:(?:DIN|EN|ISO|ASME|ANSI)[ -]?)+\d+(?:[-.]\d+)*"
_THREAD = (
    r"(?:M\d+(?:[.,]\d+)?(?:\s*[x×*]\s*\d+(?:[.,]\d+)?)*|"
    r"(?:#\d+|\d+/\d+)-\d+(?:\s*[x×*]\s*\d+(?:[ -]\d+/\d+|/\d+|[.,]\d+)?)?)"
)
_FASTENER = re.compile(rf"(?i){_STANDARD}(?:\s*[-,]?\s*{_THREAD})?|{_THREAD}")
"""A thread with its length, a standard, or both, and nothing else: M4x16, 1/4-20 x 3/4,
ISO 4762 M4x16. Threads are designated so by ISO 68-1 and ASME B1.1 (from memory)."""


def source_by_name(name: str) -> Source:
    """Give whether a part of this name is taken for bought or made."""
    words = {w.removesuffix("s") for w in name.casefold().replace("-", " ").split()}
    bare = _FASTENER.fullmatch(name.strip().removesuffix(" mm").removesuffix("mm"))
    return Source.BOUGHT if bare or words & _NAMED else Source.MADE


def made_by_nothing(snapshot: Snapshot, part: Part) -> bool:
    """Tell whether a part is only taken for made: no piece, file or part of it is."""
    if part.source is not Source.MADE or part.assembly:
        return False
    filed = any(one.files for one in revisions_of(snapshot, part))
    return not filed and not pieces_of(snapshot, part)
