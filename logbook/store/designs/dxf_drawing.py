"""What the entities of a DXF add up to: its unit, box, holes and layers.

Group codes after the published DXF reference; angles are degrees, counter-clockwise.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field

from logbook.store.designs.shapes import Box, Circle, Shape

# DXF reference, header variable $INSUNITS.
_DXF_UNITS = {
    "1": "in", "2": "ft", "4": "mm", "5": "cm", "6": "m", "8": "µin", "9": "thou",
    "13": "µm",
}  # fmt: skip

Entity = list[tuple[int, str]]
"""The pairs of one entity, its kind first."""


@dataclass(slots=True)
class Drawing:
    """What the entities of a DXF read so far add up to."""

    unit: str = ""
    box: Box = field(default_factory=Box)
    circles: list[Circle] = field(default_factory=list)
    sections: int = 0
    layers: dict[str, None] = field(default_factory=dict)
    passed_over: Counter[str] = field(default_factory=Counter)
    mirrored: bool = False

    def read_header(self, entity: Entity) -> None:
        """Take the unit from the header, where it names one."""
        names = [value for _, value in entity]
        if "$INSUNITS" in names:
            code = names[names.index("$INSUNITS") + 1 :][:1]
            self.unit = _DXF_UNITS.get(code[0], "") if code else ""

    def take(self, entity: Entity) -> None:
        """Take an entity into the size, or count it as passed over."""
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
        """What has been read so far, as a shape."""
        return Shape(
            self.unit,
            self.box.size,
            tuple(self.circles),
            layers=tuple(self.layers),
            passed_over=tuple(f"{n} {kind}" for kind, n in self.passed_over.items()),
        )


Reader = Callable[[Drawing, Entity, dict[int, str]], None]


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


def _line(drawing: Drawing, _: Entity, values: dict[int, str]) -> None:
    for code in (10, 11):
        x, y = (_number(values, code + axis) for axis in (0, 10))
        drawing.box.take(x, y, _number(values, code + 20, 0.0))


def _point(drawing: Drawing, _: Entity, values: dict[int, str]) -> None:
    x, y = _number(values, 10), _number(values, 20)
    drawing.box.take(x, y, _number(values, 30, 0.0))


def _circle(drawing: Drawing, _: Entity, values: dict[int, str]) -> None:
    x, y, radius = (_number(values, code) for code in (10, 20, 40))
    drawing.circles.append(Circle(-x if drawing.mirrored else x, y, 2 * radius))
    z = _number(values, 30, 0.0)
    drawing.place(x - radius, y - radius, z)
    drawing.place(x + radius, y + radius, z)


def _arc(drawing: Drawing, _: Entity, values: dict[int, str]) -> None:
    x, y, radius, start, end = (_number(values, code) for code in (10, 20, 40, 50, 51))
    _sweep(drawing, (x, y, _number(values, 30, 0.0)), radius, (start, end))


def _sweep(
    drawing: Drawing,
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


def _polyline(drawing: Drawing, entity: Entity, values: dict[int, str]) -> None:
    points = _points(entity)
    closed = int(_number(values, 70, 0.0)) & 1
    following = points[1:] + (points[:1] if closed else [])
    for x, y, z, _ in points:
        drawing.place(x, y, z)
    for here, there in zip(points, following, strict=False):
        if here[3]:
            _bulge(drawing, here, there)


def _bulge(drawing: Drawing, here: list[float], there: list[float]) -> None:
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


def _vertex(drawing: Drawing, entity: Entity, _: dict[int, str]) -> None:
    for x, y, z, _bulge_of in _points(entity):
        drawing.place(x, y, z)


def _ellipse(drawing: Drawing, _: Entity, values: dict[int, str]) -> None:
    """Take the whole ellipse, also for a part of one: at most too large."""
    x, y = _number(values, 10), _number(values, 20)
    major = _number(values, 11), _number(values, 21)
    ratio = _number(values, 40)
    half_x = math.hypot(major[0], ratio * major[1])
    half_y = math.hypot(major[1], ratio * major[0])
    drawing.box.take(x - half_x, y - half_y, _number(values, 30, 0.0))
    drawing.box.take(x + half_x, y + half_y, _number(values, 30, 0.0))


def _spline(drawing: Drawing, entity: Entity, _: dict[int, str]) -> None:
    """Take the control points: the curve lies within them."""
    for x, y, z, _weight in _points(entity):
        drawing.box.take(x, y, z)


def _nothing(_drawing: Drawing, _entity: Entity, _: dict[int, str]) -> None:
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
