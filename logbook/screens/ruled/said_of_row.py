"""Words that say what is done with the thing of a row: “rework the magnet”."""

from __future__ import annotations

import re

from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Piece
from logbook.records.together.names import folded, names_of
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

_SAID = re.compile(
    r"(?P<verb>scrap|rework|repair|return|use)\s+"
    r"(?:(?:the|this|that|my)\s+)?(?P<thing>.+?)(?P<as_is>\s+as\s+is)?[.!]?",
    re.IGNORECASE,
)
_ITSELF = frozenset({"it", "this", "that", "one", "piece", "part", "them", "these"})
"""What stands for the thing of the row, whatever that is."""


def verb_and_thing(typed: str) -> tuple[str, str]:
    """Give the word for what is done, and the thing as names are compared; or none."""
    found = _SAID.fullmatch(typed.strip())
    if found is None or (found["as_is"] and found["verb"].casefold() != "use"):
        return "", ""
    return found["verb"].casefold(), folded(found["thing"])


def is_thing_of(snapshot: Snapshot, record: Record, thing: str) -> bool:
    """Tell whether words name the piece or the part a row is of, or end its name.

    Of a row of neither, whether its own words hold them.
    """
    if thing in _ITSELF:
        return True
    own = record if isinstance(record, Piece) else None
    piece = own or snapshot.find(getattr(record, "piece", None), Piece)
    part = part_of(snapshot, record)
    names = {name for one in (piece, part) if one is not None for name in names_of(one)}
    if names:
        return any(f" {name}".endswith(f" {thing}") for name in names)
    return f" {thing} " in f" {folded(record.title)} "
