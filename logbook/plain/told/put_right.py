"""A value put right in the line that tells it: 22.4, no wait, 22.14; 470 ohm, not 47.

The last one counts. What was put right stays in the words of the entry, and is not
taken for what was wanted.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from logbook.errors import LogbookError
from logbook.plain.understanding import Kind, Understanding
from logbook.quantity import parse_quantity
from logbook.units import is_unit

Spans = tuple[tuple[int, int], ...]
"""From where to where in a line stands what is read apart from it."""

_FIGURE = r"(?:(?:\d+[ -])?\d+/\d+|\d+(?:[.,]\d+)?)"
_NUMBER = rf"(?<![\w.,/])(?<!\d )(?<!\d-){_FIGURE}"
_UNIT = (
    r"(?:\s?(?:[\"”″]|mm|cm|m|in|inch(?:es)?|µm|microns?|thou|°[CF]?|C|F|deg(?:rees)?|%|N·m|Nm|N|"
    r"mV|V|m?A|W|k?ohms?|[kmM]?Ω|g|kg|bar|dB|lux|lx|k?Hz)(?![\w·]))?"
)
_NO_NOUN = (
    r"(?=\s*(?:[,;)]|\.(?!\d)|$)|\s+(?:long|wide|thick|high|deep|tall|dia|across|at|on|"
    r"in|with|after|and|for|left|right|front|back|cold|warm|hot|dry|wet)\b)"
)
"""Behind a value, and not a noun it counts: no 4 mm holes."""
_OTHERWISE = (
    r"(?:no[,\s]+(?:wait|sorry)|wait[,\s]+no|(?:wait|no)(?=\s*[,:])|(?<=\.\s)no(?=\s)|"
    r"sorry|oops|whoops|nope|err?|i mean(?:t)?|make (?:that|it)|correction|"
    r"scratch that|strike that|or rather|rather|(?:or )?better(?: said)?|"
    r"more like|actually)"
)
_PLAINLY = (
    r"(?:no[,\s]+(?:wait|sorry)|wait[,\s]+no|sorry|oops|whoops|i mean(?:t)?|correction|"
    r"make (?:that|it)|scratch that|strike that|or rather)\b"
)
"""What says it without a stop before it too: 178.54 no wait 178.45."""
_SAID_ANEW = re.compile(
    rf"(?i)(?P<old>{_NUMBER}(?P<unit>{_UNIT}))"
    rf"(?:\s*(?:[,;:(]|\.{{1,3}}|-+|–|—)\s*|\s+(?={_PLAINLY}))"
    rf"{_OTHERWISE}\b[,:;.\s]*(?P<new>{_FIGURE})(?P<own>{_UNIT}){_NO_NOUN}"
)
_BEHIND = re.compile(
    rf"(?i)(?P<old>{_NUMBER}(?P<unit>{_UNIT}))(?P<mid>(?:\s+[a-z]+){{1,5}})"
    rf"(?P<out>\s*[,;:(-]+\s*{_PLAINLY}[,:;.\s]*)(?P<new>{_FIGURE})(?P<own>{_UNIT})"
    rf"{_NO_NOUN}"
)
"""With what was measured told between: 7/16 deep on the inside, or rather 13/32."""
_WROTE = (
    r"\s+(?:(?:that|which|as)\s+)?(?:i|we)\s+(?:(?:had|have|first|just)\s+)?"
    r"(?:noted|wrote|logged|typed|said|entered|measured|read|put|got|gave|told)"
    r"(?:\s+(?:it|down|before|earlier|first|yesterday|today|above|in|last time))*"
)
_NOT_SO = re.compile(
    rf"(?i)(?P<new>{_NUMBER})(?P<own>{_UNIT})"
    rf"(?P<out>,?\s+(?:and\s+)?not\s+(?:the\s+|an?\s+|as\s+)?(?P<old>\d+(?:[.,]\d+)?)"
    rf"(?P<unit>{_UNIT})(?P<wrote>{_WROTE})?){_NO_NOUN}"
)


def puts_right(line: str) -> bool:
    """Tell whether a value of the line is put right in it."""
    return next(put_right_in(line), None) is not None


def put_right_in(line: str) -> Iterator[tuple[Spans, re.Match[str]]]:
    """Go through what is put right: from where to where it stands, and how."""
    for match in _SAID_ANEW.finditer(line):
        if _alike(match) and not _really(line, match):
            yield ((match.start(), match.start("new")),), match
    for match in _BEHIND.finditer(line):
        if _alike(match) and not _SAID_TO_BE.search(match["mid"]):
            yield (match.span("old"), match.span("out")), match
    for match in _NOT_SO.finditer(line):
        if match["wrote"] or _is_slip(match["old"], match["new"]):
            yield (match.span("out"),), match


def with_unit(line: Understanding, match: re.Match[str]) -> Understanding:
    """Give the line whose value has the unit typed with the one it puts right."""
    unit = match["unit"].strip()
    if line.kind is not Kind.READING or match["own"].strip() or not unit:
        return line
    try:
        bare = parse_quantity(match["new"], "mm").value
        value = parse_quantity(f"{match['new']} {unit}")
    except LogbookError:
        return line
    readings = tuple(
        replace(one, value=value)
        if one.value.value == bare and one.value.unit != value.unit
        else one
        for one in line.facts.readings
    )
    return replace(line, facts=replace(line.facts, readings=readings))


def _alike(match: re.Match[str]) -> bool:
    """Tell whether both values may be of one thing: of one unit, where one is typed.

    3 3/8, or rather 13/32 leaves open whether the three stand.
    """
    typed = {match[one].strip() for one in ("unit", "own")} - {""}
    mixed, fresh = (_MIXED.match(match[one]) for one in ("old", "new"))
    whole = mixed is not None and fresh is None and "/" in match["new"]
    return not whole and len(typed) < 2 and all(map(is_unit, typed))


_MIXED = re.compile(r"\d+[ -]\d+/")
_SAID_TO_BE = re.compile(
    r"(?i)\b(?:drawn|drawing|nominal\w*|should|ought|supposed|said|says|sold|marked|spec|"
    r"plan|cad|model|file|ordered|bought|listed|plate|sheet|ply\w*|board|bar|rod|tube|"
    r"stock|card|wire|veneer|leather|foam)\b"
)


def _really(line: str, match: re.Match[str]) -> bool:
    """See “6 mm plate, actually 6.35”: what it is, beside what it was said to be."""
    said = line[: match.end()]
    return "actually" in match[0].lower() and bool(_SAID_TO_BE.search(said))


def _is_slip(old: str, new: str) -> bool:
    """Tell 47 from 470 and 187.6 from 178.6: a slip of the hand, and nothing wanted."""
    one, other = (Fraction(x.replace(",", ".")) for x in (old, new))
    if not one or not other or one == other:
        return False
    times = max(one, other) / min(one, other)
    moved = times.denominator == 1 and set(str(times.numerator)) == {"0", "1"}
    turned = sorted(old) == sorted(new) and len(old) == len(new)
    return (moved and str(times.numerator).startswith("1")) or turned
