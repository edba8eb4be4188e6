"""What a design file says of itself: its unit, overall size, holes, triangles.

All sizes are floats in the file's own unit, as good as the file. Files are read
piece by piece; whatever is wrong with one becomes an `Unreadable`, a value.
DXF group codes after the published DXF reference; STL after its common layout:
80 bytes, a count, 50 bytes a triangle, or words.
"""

from __future__ import annotations

import math
import struct
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import BinaryIO

from logbook.store.designs.design_files import ending
from logbook.store.disk.flushed import reason

# DXF reference, header variable $INSUNITS.
_DXF_UNITS = {
    "1": "in", "2": "ft", "4": "mm", "5": "cm", "6": "m", "8": "µin", "9": "thou",
    "13": "µm",
}  # fmt: skip
_LONGEST_LINE = 100_000

Entity = list[tuple[int, str]]


@dataclass(frozen=True, slots=True)
class Shape:
    """What was read; `unit` is empty where the file does not say.

    `size` is x, y, z in that unit, None without anything known to measure.
    `circles` counts full circles, which in a flat pattern are holes. `passed_over`
    names entities that are there but not in the size.
    """

    unit: str
    size: tuple[float, float, float] | None
    circles: int = 0
    triangles: int = 0
    layers: tuple[str, ...] = ()
    passed_over: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A file nothing can be said of, and why."""

    why: str


@dataclass(slots=True)
class _Box:
    """The smallest upright box around the points seen."""

    low: list[float] = field(default_factory=lambda: [math.inf] * 3)
    high: list[float] = field(default_factory=lambda: [-math.inf] * 3)

    def take(self, *point: float) -> None:
        if not all(map(math.isfinite, point)):
            raise ValueError("a coordinate that is not a number")
        for axis, value in enumerate(point):
            self.low[axis] = min(self.low[axis], value)
            self.high[axis] = max(self.high[axis], value)

    @property
    def size(self) -> tuple[float, float, float] | None:
        if math.inf in self.low[:2]:
            return None
        x, y, z = (b - a for a, b in zip(self.low, self.high, strict=True))
        return x, y, max(z, 0.0)


def read_shape(file: Path) -> Shape | Unreadable | None:
    """Read what `file` says of itself; None for a format not read here."""
    reader = {"dxf": _read_dxf, "stl": _read_stl}.get(ending(file.name))
    if reader is None:
        return None
    try:
        with file.open("rb") as stream:
            return reader(stream)
    except OSError as error:
        return Unreadable(f"could not be read: {reason(error)}")
    except (ValueError, struct.error, OverflowError) as error:
        return Unreadable(f"could not be read: {error}")


def _read_stl(stream: BinaryIO) -> Shape | Unreadable:
    head = stream.read(84)
    size = stream.seek(0, 2)
    count = int.from_bytes(head[80:84], "little") if len(head) == 84 else -1
    # Many binary files begin with "solid" too: the length decides.
    if size == 84 + 50 * count:
        stream.seek(84)
        return _triangles(stream, count)
    if head.lstrip()[:5].lower() == b"solid":
        stream.seek(0)
        return _facets(stream)
    if count < 0:
        return Unreadable(f"could not be read: {size} bytes are too few for an STL")
    return Unreadable(
        f"could not be read: it announces {count} triangles, {84 + 50 * count} bytes, "
        f"and has {size} bytes"
    )


def _triangles(stream: BinaryIO, count: int) -> Shape:
    box = _Box()
    while piece := stream.read(50 * 4096):
        columns = list(zip(*struct.iter_unpack("<12fH", piece), strict=True))
        corners = columns[3:12]
        box.take(*(min(map(min, corners[axis::3])) for axis in range(3)))
        box.take(*(max(map(max, corners[axis::3])) for axis in range(3)))
        # min and max step over a NaN that is not the first; a sum does not.
        box_sum = sum(map(sum, corners))
        if not math.isfinite(box_sum):
            raise ValueError("a coordinate that is not a number")
    return Shape("", box.size, triangles=count)


def _facets(stream: BinaryIO) -> Shape | Unreadable:
    box, corners = _Box(), 0
    while line := stream.readline(_LONGEST_LINE):
        words = line.split()
        if len(words) == 4 and words[0].lower() == b"vertex":
            box.take(*map(float, words[1:]))
            corners += 1
    if not corners or corners % 3:
        return Unreadable(f"could not be read: {corners} corners make no triangles")
    return Shape("", box.size, triangles=corners // 3)


def _read_dxf(stream: BinaryIO) -> Shape | Unreadable:
    if b"\0" in stream.read(64):
        return Unreadable("could not be read: a binary DXF; accepted: DXF as text")
    stream.seek(0)
    drawing = _Drawing()
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
    while code := stream.readline(_LONGEST_LINE):
        value = stream.readline(_LONGEST_LINE)
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


@dataclass(slots=True)
class _Drawing:
    """What the entities of a DXF read so far add up to."""

    unit: str = ""
    box: _Box = field(default_factory=_Box)
    circles: int = 0
    sections: int = 0
    layers: dict[str, None] = field(default_factory=dict)
    passed_over: Counter[str] = field(default_factory=Counter)
    mirrored: bool = False

    def read_header(self, entity: Entity) -> None:
        names = [value for _, value in entity]
        if "$INSUNITS" in names:
            code = names[names.index("$INSUNITS") + 1 :][:1]
            self.unit = _DXF_UNITS.get(code[0], "") if code else ""

    def take(self, entity: Entity) -> None:
        kind = entity[0][1]
        if kind == "SECTION":
            self.sections += 1
            return
        if kind in ("ENDSEC", "SEQEND"):
            return
        values = dict(reversed(entity))
        if 8 in values:
            self.layers[values[8]] = None
        self.mirrored = float(values.get(230, 1)) < 0
        reader = _READERS.get(kind)
        if reader is None:
            self.passed_over[kind] += 1
        else:
            reader(self, entity, values)

    def place(self, x: float, y: float, z: float = 0.0) -> None:
        """Take a point of the plane an arc, a circle or a polyline lies in."""
        self.box.take(-x if self.mirrored else x, y, z)

    @property
    def shape(self) -> Shape:
        return Shape(
            self.unit,
            self.box.size,
            self.circles,
            layers=tuple(self.layers),
            passed_over=tuple(f"{n} {kind}" for kind, n in self.passed_over.items()),
        )


Reader = Callable[[_Drawing, Entity, dict[int, str]], None]


def _number(values: dict[int, str], code: int, otherwise: float | None = None) -> float:
    if code in values:
        return float(values[code])
    if otherwise is None:
        raise ValueError(f"a {values[0]} without group {code}")
    return otherwise


def _points(entity: Entity) -> list[list[float]]:
    """Collect x, y, z and the bulge of the repeated groups 10, 20, 30, 42."""
    points: list[list[float]] = []
    for code, value in entity:
        if code == 10:
            points.append([float(value), 0.0, 0.0, 0.0])
        elif code in (20, 30, 42) and points:
            points[-1][{20: 1, 30: 2, 42: 3}[code]] = float(value)
    return points


def _line(drawing: _Drawing, _: Entity, values: dict[int, str]) -> None:
    for code in (10, 11):
        x, y = (_number(values, code + axis) for axis in (0, 10))
        drawing.box.take(x, y, _number(values, code + 20, 0.0))


def _point(drawing: _Drawing, _: Entity, values: dict[int, str]) -> None:
    x, y = _number(values, 10), _number(values, 20)
    drawing.box.take(x, y, _number(values, 30, 0.0))


def _circle(drawing: _Drawing, _: Entity, values: dict[int, str]) -> None:
    drawing.circles += 1
    x, y, radius = (_number(values, code) for code in (10, 20, 40))
    z = _number(values, 30, 0.0)
    drawing.place(x - radius, y - radius, z)
    drawing.place(x + radius, y + radius, z)


def _arc(drawing: _Drawing, _: Entity, values: dict[int, str]) -> None:
    x, y, radius, start, end = (_number(values, code) for code in (10, 20, 40, 50, 51))
    _sweep(drawing, (x, y, _number(values, 30, 0.0)), radius, (start, end))


def _sweep(
    drawing: _Drawing,
    centre: tuple[float, float, float],
    radius: float,
    angles_deg: tuple[float, float],
) -> None:
    """Take an arc, counter-clockwise: its ends and the quarters it passes."""
    start, end = angles_deg
    turn = (end - start) % 360 or 360.0
    first = math.ceil(start / 90)
    quarters = [90.0 * (first + n) for n in range(5) if 90 * (first + n) < start + turn]
    for angle in (start, start + turn, *quarters):
        radians = math.radians(angle)
        x = centre[0] + radius * math.cos(radians)
        drawing.place(x, centre[1] + radius * math.sin(radians), centre[2])


def _polyline(drawing: _Drawing, entity: Entity, values: dict[int, str]) -> None:
    points = _points(entity)
    closed = int(_number(values, 70, 0.0)) & 1
    following = points[1:] + (points[:1] if closed else [])
    for x, y, z, _ in points:
        drawing.place(x, y, z)
    for here, there in zip(points, following, strict=False):
        if here[3]:
            _bulge(drawing, here, there)


def _bulge(drawing: _Drawing, here: list[float], there: list[float]) -> None:
    """Take the arc between two corners; its bulge is the tangent of a quarter of it."""
    bulge = here[3]
    middle_x, middle_y = (here[0] + there[0]) / 2, (here[1] + there[1]) / 2
    along_x, along_y = there[0] - here[0], there[1] - here[1]
    off = (1 - bulge * bulge) / (4 * bulge)
    x, y = middle_x - off * along_y, middle_y + off * along_x
    first = math.degrees(math.atan2(here[1] - y, here[0] - x))
    last = math.degrees(math.atan2(there[1] - y, there[0] - x))
    angles = (first, last) if bulge > 0 else (last, first)
    if (angles[1] - angles[0]) % 360 > 1e-9:
        _sweep(drawing, (x, y, here[2]), math.dist((x, y), here[:2]), angles)


def _vertex(drawing: _Drawing, entity: Entity, _: dict[int, str]) -> None:
    for x, y, z, _bulge_of in _points(entity):
        drawing.place(x, y, z)


def _ellipse(drawing: _Drawing, _: Entity, values: dict[int, str]) -> None:
    """Take the whole ellipse, also for a part of one: at most too large."""
    x, y = _number(values, 10), _number(values, 20)
    major = _number(values, 11), _number(values, 21)
    ratio = _number(values, 40)
    half_x = math.hypot(major[0], ratio * major[1])
    half_y = math.hypot(major[1], ratio * major[0])
    drawing.box.take(x - half_x, y - half_y, _number(values, 30, 0.0))
    drawing.box.take(x + half_x, y + half_y, _number(values, 30, 0.0))


def _spline(drawing: _Drawing, entity: Entity, _: dict[int, str]) -> None:
    """Take the control points: the curve lies within them."""
    for x, y, z, _weight in _points(entity):
        drawing.box.take(x, y, z)


def _nothing(_drawing: _Drawing, _entity: Entity, _: dict[int, str]) -> None:
    """Pass over the head of a polyline: its vertices follow by themselves."""


_READERS: dict[str, Reader] = {
    "LINE": _line,
    "POINT": _point,
    "CIRCLE": _circle,
    "ARC": _arc,
    "LWPOLYLINE": _polyline,
    "POLYLINE": _nothing,
    "VERTEX": _vertex,
    "ELLIPSE": _ellipse,
    "SPLINE": _spline,
}
