"""How many pieces of a part a line says were made: printed five cleats."""

from __future__ import annotations

import re

from logbook.plain.understanding import Kind, Understanding

MOST = 20
"""So many pieces are put on record by one line at most."""
_MADE = re.compile(
    r"(?i)\W*(?:(?:i|we|have|today|yesterday|just|now)\s+)*"
    r"(?:made|printed|built|cast|moulded|molded)\s+"
    r"(?P<many>\d{1,2}|[a-z]+)(?:\s+(?:more|new|of the))?\s+(?P<what>\S.*)"
)
"""Verbs that make a whole thing of none; what is cut may be cut of a piece there is."""


def made_several(line: Understanding) -> int:
    """Give how many new pieces of its part a line says were made; 0 where it says none.

    The count stands before the part: of “printed the cleat with five walls” it is none.
    """
    facts = line.facts
    many = facts.quantity or 0
    if line.kind is not Kind.STEP or facts.undone or facts.piece or facts.pieces:
        return 0
    if not 1 < many <= MOST or not facts.part:
        return 0
    found = _MADE.match(line.line)
    spans = line.words.get("quantity", ())
    counted = found is not None and any(
        one.start == found.start("many") for one in spans
    )
    if found is None or not counted:
        return 0
    named = line.words.get("part", ())
    behind = line.line[found.start("what") :]
    first = min((one.start for one in named), default=-1) - found.start("what")
    led = behind[: max(first, 0)].split()
    return many if first >= 0 and len(led) <= 1 else 0
