"""A DXF as pairs of a group code and a value, after the published DXF reference.

Files are read piece by piece; only a drawing as text is read.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import BinaryIO

from logbook.store.designs.dxf_drawing import Drawing, Entity
from logbook.store.designs.shapes import LONGEST_LINE, Shape, Unreadable


def read_dxf(stream: BinaryIO) -> Shape | Unreadable:
    """Read the unit, size, holes and layers of a DXF.

    Raises:
        ValueError: a line is no group code, or an entity lacks a number it needs.
    """
    if b"\0" in stream.read(64):
        return Unreadable("could not be read: a binary DXF; accepted: DXF as text")
    stream.seek(0)
    drawing = Drawing()
    for section, entity in _entities(_pairs(stream)):
        if section == "HEADER":
            drawing.read_header(entity)
        elif section == "ENTITIES":
            drawing.take(entity)
    if not drawing.sections:
        return Unreadable("could not be read: no ENTITIES section in it")
    return drawing.shape


def _pairs(stream: BinaryIO) -> Iterator[tuple[int, str]]:
    number = 0
    while code := stream.readline(LONGEST_LINE):
        value = stream.readline(LONGEST_LINE)
        number += 2
        if not code.strip() and not value:
            return
        try:
            group = int(code)
        except ValueError:
            shown = code.strip()[:20].decode("utf-8", "replace")
            sentence = f"line {number - 1}: found “{shown}” instead of a group code"
            raise ValueError(sentence) from None
        yield group, value.decode("utf-8", "replace").strip()


def _entities(pairs: Iterator[tuple[int, str]]) -> Iterator[tuple[str, Entity]]:
    """Give each run of pairs from one code 0 to the next, with its section."""
    section, entity = "", Entity()
    for code, value in pairs:
        if code == 999:
            continue
        if code == 0:
            if entity:
                yield section, entity
            entity = [(0, value)]
            if value == "ENDSEC":
                section = ""
        elif code == 2 and entity == [(0, "SECTION")]:
            section = value
            entity = [(0, "SECTION"), (2, value)]
        elif section in ("HEADER", "ENTITIES"):
            entity.append((code, value))
    if entity:
        yield section, entity
