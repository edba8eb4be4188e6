"""Where a row ends and where words go on in the next: between words, never in a value.

A number and its unit stay together, and what is cut says so by a sign.
"""

from __future__ import annotations

import re

from textual.content import Content

from logbook.units import UNITS

SIGN = "…"
LONG = 24
"""Columns of a word so long that it is cut inside rather than left out."""

_UNITS = "|".join(map(re.escape, sorted([*UNITS, "%"], key=len, reverse=True)))
_HELD = re.compile(rf"(?<=\d) (?=(?:{_UNITS})(?!\w)|\d+/\d|[×±])|(?<=[×±≤≥<>]) (?=\d)")
_HOLDS = "\ue000"
"""Stands for a blank at which no row ends: of one column, and no blank to `wrap`."""
_LOOSE = " ·,;:–(“"
"""What is not left standing before the sign."""


def broken(words: Content, width: int) -> list[Content]:
    """Break words into rows of at most this many columns."""
    width = max(width, 1)
    held = _HELD.sub(_HOLDS, words.plain)
    if held == words.plain or words.cell_length <= width:
        return words.wrap(width)
    rows = Content(held, [*words.spans]).wrap(width)
    return [Content(row.plain.replace(_HOLDS, " "), [*row.spans]) for row in rows]


def cut(words: Content, width: int, *, pad: bool = False) -> Content:
    """Cut words to so many columns, behind a word where one ends near enough."""
    if words.cell_length <= width:
        return words.truncate(width, pad=pad)
    if width < 4:
        return words.truncate(max(width, 0), ellipsis=True)
    kept = words.truncate(width - 2)
    held, room = _HELD.sub(_HOLDS, words.plain), len(kept.plain)
    end = held.rfind(" ", 0, room + 1)
    if end <= 0 or end < room - LONG:
        return words.truncate(width, ellipsis=True)
    end = len(held[:end].rstrip(_LOOSE))
    return Content.assemble(kept[:end], f" {SIGN}").truncate(width, pad=pad)


def fitted(words: Content, width: int, rows: int) -> list[Content]:
    """Break words into at most so many rows; the last says by its sign what is cut."""
    lines = broken(words, width)
    if len(lines) <= rows or rows < 1:
        return lines
    rest = Content(" ").join(lines[rows - 1 :])
    return [*lines[: rows - 1], cut(rest, width)]
