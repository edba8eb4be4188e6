"""A size told behind what it is of, with a stop between: lid screws, torque 0.9 Nm."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.plain.words.spread import spread

_HEADED = re.compile(
    r"(?P<of>[^\W\d_][^\W\d_]*(?: [^\W\d_]+){1,3})(?P<stop>\s*[,:])\s+"
    r"(?P<what>[^\W\d_]+(?: [^\W\d_]+)?)\s+\d[\d.,/]*(?:\s*[^\s\d,]+)?\s*"
)
_NAMES = ("part", "piece", "what", "place")


def read_headed(
    line: str, read: Callable[[str], Understanding]
) -> Understanding | None:
    """Read a size and the heading before it as one; None where the line is none.

    All of the heading has to be what the size is of: in “cable too short, length 1.2”
    it tells another fact.
    """
    match = _HEADED.fullmatch(line)
    if match is None:
        return None
    start, end = match.span("stop")
    rest = line[:start] + " " * (end - start) + line[end:]
    told = spread(read(" ".join(rest.split())), rest)
    spans = [one for fact in _NAMES for one in told.words.get(fact, ())]
    named = all(
        any(one.start <= at < one.end for one in spans)
        for group in ("of", "what")
        for at in range(*match.span(group))
        if not line[at].isspace()
    )
    sized = told.kind is Kind.READING and len(told.facts.readings) == 1
    taken = told.verdict is Verdict.TAKEN and sized and named
    return replace(told, line=line) if taken else None
