"""Figures that a line tells beside its size: what was allowed, tried, or put right.

They are set apart before the line is read, so that none is taken for a size.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace

from logbook.errors import LogbookError
from logbook.plain.told.headed import read_headed
from logbook.plain.told.put_right import Spans, put_right_in, with_unit
from logbook.plain.understanding import Cause, Kind, Span, Understanding, Verdict
from logbook.plain.words.spread import spread
from logbook.quantity import Quantity, parse_quantity

Read = Callable[[str], Understanding]
PutBack = Callable[[Understanding, re.Match[str]], Understanding]

_NUMBER = r"\d+(?:[.,]\d+)?"
_UNIT = r"(?:\s*(?:mm|cm|m|in|°C|deg|%)(?!\w))?"
_RANGE = (
    rf"(?P<low>{_NUMBER}){_UNIT}(?:\s*(?:to|\.\.\.?|…|–|-)\s*|\s+and\s+)"
    rf"(?P<high>{_NUMBER})(?P<unit>{_UNIT})(?![\w/]|[.,]\d)"
)
_PAPER = r"(?:the\s+)?(?:drawing|manual|plan|spec|sheet|data\s?sheet|guide|maker|book)"
_SAID_TO_BE = (
    rf"(?:{_PAPER}\s+(?:wants|says|has|gives|asks for|allows|calls for)|"
    r"(?:it\s+)?(?:should|must|ought to|has to|needs to)\s+be|(?:is\s+)?supposed to be|"
    r"wanted|allowed|allowable|limits?(?:\s+(?:are|is))?|tolerance|target|spec)"
)
_FROM = r":?\s+(?:(?:between|from|within)\s+)?"
_ALLOWED = re.compile(
    rf"(?i)[,;]?\s*(?:\(\s*)?(?:\b{_SAID_TO_BE}{_FROM}|(?<=\()){_RANGE}(?:\s*\))?,?"
)
"""Of what is allowed: should be between 6.1 and 6.2, (2.2 to 2.5)."""
_TRIED = re.compile(
    r"(?i)(?:\s*[,;]\s*(?:because\s+|since\s+|as\s+)?|\s+(?:because|since|as)\s+)"
    rf"(?P<said>{_NUMBER}{_UNIT}\s+(?:was|is|had been)\s+"
    r"(?:(?:much|far|way|a bit)\s+)?too\s+[a-z]+)"
)
"""Of what was tried before: 6.2 was too tight."""
_WHICH = re.compile(r"(?i),\s*which\s[^,\d]*,")
"""Of what is told of a part between: the gate, which I printed, is 51.8 wide."""


def read_apart(line: str, read: Read) -> Understanding | None:
    """Read a line without the figures beside its size, or as one with its heading.

    None where it has neither.
    """
    for spans, match, put_back in _beside(line):
        rest = line
        for start, end in spans:
            rest = rest[:start] + " " * (end - start) + rest[end:]
        if not any(sign.isdigit() for sign in rest):
            continue
        single = " ".join(rest.split())
        told = spread(read(single), rest)
        if told.verdict is Verdict.KEPT or not told.facts.readings:
            continue
        apart = (one for span in spans for one in _words(line, *span))
        words = (*told.content, *apart)
        return put_back(replace(told, line=line, content=words), match)
    return read_headed(line, read)


def _beside(line: str) -> Iterator[tuple[Spans, re.Match[str], PutBack]]:
    """Go through what stands beside a size, with what puts it back to the reading."""
    for spans, match in put_right_in(line):
        yield spans, match, with_unit
    for pattern, put_back in (
        (_ALLOWED, _with_limits),
        (_TRIED, _with_tried),
        (_WHICH, lambda told, _: told),
    ):
        for match in pattern.finditer(line):
            yield (match.span(),), match, put_back


def _words(line: str, start: int, end: int) -> list[Span]:
    return [
        Span(start + one.start(), start + one.end())
        for one in re.finditer(r"[\w.,°%/-]*\w[\"”″]?", line[start:end])
    ]


def _with_limits(line: Understanding, match: re.Match[str]) -> Understanding:
    """Give the reading, off the limit it is beyond; within them it is as wanted."""
    readings = line.facts.readings
    if line.kind is not Kind.READING or line.facts.wanted:
        return line
    unit = match["unit"].strip() or readings[0].value.unit
    try:
        limits = parse_quantity(match["low"], unit), parse_quantity(match["high"], unit)
        beyond = {_beyond(one.value, *limits) for one in readings}
    except LogbookError:
        return line
    wanted = beyond.pop() if len(beyond) == 1 else None
    if wanted is None:
        return line
    told = "low" if wanted is limits[0] else "high"
    words = {**line.words, "wanted": (Span(*match.span(told)),)}
    return replace(line, facts=replace(line.facts, wanted=(wanted,)), words=words)


def _beyond(value: Quantity, low: Quantity, high: Quantity) -> Quantity | None:
    """Give the limit that a value is beyond."""
    if value.to(low.unit) < low.value:
        return low
    return high if value.to(high.unit) > high.value else None


def _with_tried(line: Understanding, match: re.Match[str]) -> Understanding:
    """Give the work with what was tried before as its reason."""
    if line.facts.cause is not None:
        return line
    words = {**line.words, "cause": (Span(*match.span("said")),)}
    return replace(
        line, facts=replace(line.facts, cause=Cause(match["said"])), words=words
    )
