"""What can stand in for a part, and what is known of it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.publish.guide.parts_list import Listed
from logbook.publish.release.released import Released
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.design import Part, Revision
from logbook.records.sizes.definition import OFF_DRAWING, Dimension, definition
from logbook.records.sizes.limits_held import held_words, limits_held


@dataclass(frozen=True, slots=True)
class Substitute:
    """What can stand in for something, and what came of trying it."""

    of: str
    instead: str
    tried: str


def substitutes(
    released: Released, lines: tuple[Listed, ...]
) -> tuple[Substitute, ...]:
    """Give what can stand in for parts, with what came of trying it.

    A plate of a size that is outside the limits of the part is said to be so.
    """
    return tuple(
        _substitute(line.name, words, _outside(released, line.part, words))
        for line in lines
        for words in line.said.substitutes
    )


def _substitute(of: str, words: str, but: str) -> Substitute:
    """Read `birch ply: works` as what stands in and what came of it."""
    instead, sign, tried = words.rpartition(": ")
    if not sign:
        instead, tried = words, ""
    return Substitute(of, instead, "; ".join(filter(None, (tried, but))))


_THICK = re.compile(
    r"(?i)(\d+(?:[.,]\d+)?|\d+/\d+)\s*(mm|cm|in|inch|\")\s*(?:thick\s+)?"
    r"(?:\w+\s+){0,2}?(?:plate|sheet|board|ply|plywood|card|stock|acrylic|thick)\b"
)


def _outside(released: Released, part: Part | None, words: str) -> str:
    """Say that the thickness a stand-in names is outside the limits of the part's."""
    found = _THICK.search(words)
    revision = released.revision(part) if part else None
    drawn = _thickness(released, revision) if revision else None
    if found is None or drawn is None:
        return ""
    size = _size(f"{found[1]} {found[2]}", released.snapshot.project.unit)
    project = released.snapshot.project
    if size is None or limits_held(project, drawn).verdict(size) != OFF_DRAWING:
        return ""
    name = drawn.characteristic.title
    return f"outside the limits: {name} {held_words(project, drawn)}"


def _thickness(released: Released, revision: Revision) -> Dimension | None:
    drawn = definition(released.snapshot, revision)
    return next((d for d in drawn if "thick" in d.characteristic.title), None)


def _size(words: str, unit: str) -> Quantity | None:
    try:
        found = parse_quantity(words, unit)
    except BadInput:
        return None
    return found if isinstance(found, Quantity) else None
