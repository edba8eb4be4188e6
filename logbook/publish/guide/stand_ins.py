"""What can stand in for a part, and what is known of it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from logbook.errors import BadInput
from logbook.publish.guide.other_screw import OtherScrew, other_screws
from logbook.publish.guide.other_size import OtherSize, other_sizes
from logbook.publish.guide.parts_list import Listed
from logbook.publish.release.released import Released
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.design import Part, Revision
from logbook.records.sizes.definition import OFF_DRAWING, Dimension, definition
from logbook.records.sizes.limits_held import held_words, limits_held
from logbook.store.designs.shapes import Shape


@dataclass(frozen=True, slots=True)
class Substitute:
    """What can stand in for something, and what came of trying it, or is worked out."""

    of: str
    instead: str
    tried: str
    worked_out: bool = False

    @property
    def by_tables(self) -> bool:
        """Tell whether it is a screw of the other system."""
        return _BY_TABLES in self.tried


_BY_TABLES = "by thread tables: "


def substitutes(
    released: Released, lines: tuple[Listed, ...], shapes: Mapping[str, Shape]
) -> tuple[Substitute, ...]:
    """Give what can stand in for parts, with what came of trying it.

    A plate of a size that is outside the limits of the part is said to be so. Where
    the other system sells a neighbouring size or screw, it is said what that comes to.
    """
    others = tuple(other_sizes(released))
    screws = tuple(other_screws(released, lines, shapes))
    told = []
    for line in lines:
        mine = [one for one in others if one.part is line.part]
        for words in line.said.substitutes:
            same = [one for one in mine if f"{one.instead} " in f"{words} "]
            near = [_by_tables(one) for one in screws if one.thread in words]
            worked_out = (*map(_by_drawings, same), *near)
            but = (_outside(released, line.part, words), *worked_out)
            found = _substitute(line.name, words, "; ".join(filter(None, but)))
            told.append(replace(found, worked_out=bool(worked_out)))
            mine = [one for one in mine if one not in same]
            screws = tuple(one for one in screws if one.thread not in words)
        told += [
            Substitute(one.of, _named(one), _by_drawings(one), worked_out=True)
            for one in mine
        ]
    told += [
        Substitute(one.of, one.instead, _by_tables(one), worked_out=True)
        for one in screws
    ]
    return tuple(dict.fromkeys(told))


def _named(one: OtherSize) -> str:
    """Name the other size, one in inches with its millimetres."""
    if one.instead.unit == "mm":
        return str(one.instead)
    return f"{one.instead} ({float(one.instead.to('mm')):.2f} mm)"


def _by_drawings(one: OtherSize) -> str:
    return f"by the drawings: {'; '.join(one.comes_to)}"


def _by_tables(one: OtherScrew) -> str:
    return f"{_BY_TABLES}{one.comes_to}"


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
