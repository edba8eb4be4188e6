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

MOST_TOGETHER = 36
"""Columns of words that are kept together; a narrow screen has room for them."""

_UNITS = "|".join(map(re.escape, sorted([*UNITS, "%"], key=len, reverse=True)))
_HELD = re.compile(rf"(?<=\d) (?=(?:{_UNITS})(?!\w)|\d+/\d|[×±])|(?<=[×±≤≥<>]) (?=\d)")
_HOLDS = "\ue000"
"""Stands for a blank at which no row ends: of one column, and no blank to `wrap`."""
_LOOSE = " ·,;:–(“"
"""What is not left standing before the sign."""
_SENSE = 20
"""Columns left out at most, so that what stands before the sign makes sense."""
_CLAUSE = re.compile(r"[,;](?= )| (?=[(–·])")
_LEADS_ON = frozenset((
    "a", "an", "and", "are", "as", "at", "but", "by", "for", "from", "had", "has", "in",
    "into", "is", "it", "its", "no", "not", "of", "on", "or", "that", "the", "this",
    "to", "until", "was", "were", "which", "will", "with",
))  # fmt: skip
"""Words behind which one waits for the next."""


def together(words: Content) -> Content:
    """Give words that are not parted where rows are broken, unless they are long."""
    if words.cell_length > MOST_TOGETHER:
        return words
    return Content(words.plain.replace(" ", _HOLDS), [*words.spans])


def parted(words: str) -> str:
    """Give back the blanks of words that are kept together."""
    return words.replace(_HOLDS, " ")


def broken(words: Content, width: int) -> list[Content]:
    """Break words into rows of at most this many columns."""
    width = max(width, 1)
    held = _HELD.sub(_HOLDS, words.plain)
    if _HOLDS not in held:
        return words.wrap(width)
    rows = Content(held, [*words.spans]).wrap(width)
    return [Content(parted(row.plain), [*row.spans]) for row in rows]


def cut(words: Content, width: int, *, pad: bool = False) -> Content:
    """Cut words to so many columns, behind a word where one ends near enough."""
    if words.cell_length <= width:
        return words.truncate(width, pad=pad)
    if width < 4:
        return words.truncate(max(width, 0), ellipsis=True)
    kept = words.truncate(width - 2).rstrip()
    held, room = _HELD.sub(_HOLDS, words.plain), len(kept.plain)
    end = held.rfind(" ", 0, room + 1)
    if end <= 0 or end < room - LONG:
        kept = words.truncate(width - 1).rstrip()
        return Content.assemble(kept, SIGN).truncate(width, pad=pad)
    end = len(held[: _of_sense(held[:end], width)].rstrip(_LOOSE))
    return Content.assemble(kept[:end], f" {SIGN}").truncate(width, pad=pad)


def _of_sense(kept: str, width: int) -> int:
    """Give where words are cut so that no clause is left that has only begun."""
    least = max(len(kept) - min(_SENSE, width // 4), 1)
    clauses = [found.start() for found in _CLAUSE.finditer(kept, least)]
    if clauses:
        return clauses[-1]
    end = len(kept)
    while (at := kept.rfind(" ", least, end)) > 0:
        if kept[at + 1 : end].casefold() not in _LEADS_ON:
            break
        end = at
    return end


def fitted(words: Content, width: int, rows: int, key: str = "") -> list[Content]:
    """Break words into at most so many rows; the last says by its sign what is cut.

    Behind the sign stands the `key` that reads it in full, where there is room.
    """
    lines = broken(words, width)
    if len(lines) <= rows or rows < 1:
        return lines
    rest = Content(" ").join(lines[rows - 1 :])
    if not key or width < len(key) + LONG:
        return [*lines[: rows - 1], cut(rest, width)]
    kept = cut(rest, width - len(key) - 1)
    return [*lines[: rows - 1], Content.assemble(kept, (f" {key}", "$mark bold"))]
