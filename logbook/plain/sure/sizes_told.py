"""Which values of a line that tells what is done with a piece are sizes of it."""

from __future__ import annotations

import re

from logbook.plain.understanding import Reading, Understanding

_IT_IS = re.compile(
    r"(?i)(?:\b(?:to|now|at|is|was|are|were|reads?|measures|measured|out)|[,:;(=])$"
)


def sizes_told(line: Understanding) -> tuple[Reading, ...]:
    """Give the sizes of a piece that its disposition tells: filed to 178.3.

    By how much it was shimmed up, and the 24 V of “returned the 24 V supply”, are none.
    """
    spans = line.words.get("readings", ())
    readings = line.facts.readings
    if len(spans) != len(readings):
        return readings
    told = line.told_by.start if line.told_by else len(line.line)
    which = tells_which(line, "readings")
    found = []
    for one, span in zip(readings, spans, strict=True):
        before = line.line[: span.start].rstrip()
        said = _IT_IS.search(before) is not None or told >= span.start
        if one.what or line.facts.what or (said and not which):
            found.append(one)
    return tuple(found)


def tells_which(line: Understanding, fact: str) -> bool:
    """Tell whether a value stands right before the part it tells from others."""
    parts = {one.start for one in line.words.get("part", ())}
    spans = line.words.get(fact, ())
    return any(one.start and one.end + 1 in parts for one in spans)
