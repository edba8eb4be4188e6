"""The outline of the shapes of an SVG, and how far it reaches once it is moved.

Each shape is the path it equals (SVG 2, section 10); the path data is read by
`svg.path`. A curve reaches farthest where its derivative along an axis is nought, or
at its ends.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping

from svg.path import Arc, CubicBezier, Move, Path, QuadraticBezier, parse_path

from logbook.counting import so_many

Matrix = tuple[float, float, float, float, float, float]
"""a b c d e f of SVG: x becomes ax + cy + e, y becomes bx + dy + f."""
UNMOVED: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)

OUTLINES: dict[str, tuple[str, ...]] = {
    "path": ("d",),
    "rect": ("x", "y", "width", "height", "rx", "ry"),
    "circle": ("cx", "cy", "r"),
    "ellipse": ("cx", "cy", "rx", "ry"),
    "line": ("x1", "y1", "x2", "y2"),
    "polyline": ("points",),
    "polygon": ("points",),
}
"""The shapes, and the attributes that say where they lie."""

_ONE = re.compile(r"\s*,?\s*(\w+)\s*\(([^()]*)\)\s*")


def outline(tag: str, told: Mapping[str, str]) -> Path:
    """Give a shape as a path.

    Raises:
        ValueError: its path or a number of it cannot be read.
    """
    try:
        return parse_path(_as_path(tag, told))
    except (ValueError, IndexError, ArithmeticError, AssertionError) as error:
        why = str(error)[:60]
        raise ValueError(f"a {tag} that cannot be read: {why}") from None


def _as_path(tag: str, told: Mapping[str, str]) -> str:
    if tag == "path":
        return told.get("d", "")
    if tag in ("polyline", "polygon"):
        points = told.get("points", "").strip()
        return f"M {points}" if points else ""
    number = {name: float(told.get(name, 0)) for name in OUTLINES[tag]}
    if tag == "line":
        return "M {x1} {y1} L {x2} {y2}".format_map(number)
    if tag == "rect":
        return _rectangle(number, told)
    across = number["r"] if tag == "circle" else number["rx"]
    down = number["r"] if tag == "circle" else number["ry"]
    x, y = number["cx"], number["cy"]
    if across <= 0 or down <= 0:
        return ""
    half = f"A {across} {down} 0 0 1"
    return f"M {x - across} {y} {half} {x + across} {y} {half} {x - across} {y} Z"


def _rectangle(number: Mapping[str, float], told: Mapping[str, str]) -> str:
    x, y, wide, high = (number[name] for name in ("x", "y", "width", "height"))
    if wide <= 0 or high <= 0:
        return ""
    across = number["rx"] if "rx" in told else number["ry"]
    down = number["ry"] if "ry" in told else across
    across, down = min(across, wide / 2), min(down, high / 2)
    if across <= 0 or down <= 0:
        return f"M {x} {y} h {wide} v {high} h {-wide} Z"
    corner = f"a {across} {down} 0 0 1"
    return (
        f"M {x + across} {y} h {wide - 2 * across} {corner} {across} {down} "
        f"v {high - 2 * down} {corner} {-across} {down} "
        f"h {2 * across - wide} {corner} {-across} {-down} "
        f"v {2 * down - high} {corner} {across} {-down} Z"
    )


# -- moved -----------------------------------------------------------------------


def moved(matrix: Matrix, transform: str) -> Matrix:
    """Give the matrix of what is moved by a `transform` inside of it.

    Raises:
        ValueError: the transform cannot be read.
    """
    at = 0
    while at < len(transform.rstrip()):
        found = _ONE.match(transform, at)
        if found is None:
            raise ValueError(f"a transform “{transform[at:][:30]}”")
        numbers = [float(one) for one in found[2].replace(",", " ").split()]
        matrix = _inside(matrix, _matrix(found[1], numbers))
        at = found.end()
    return matrix


def _inside(outer: Matrix, inner: Matrix) -> Matrix:
    a, b, c, d, e, f = outer
    g, h, i, j, k, m = inner
    return (
        a * g + c * h,
        b * g + d * h,
        a * i + c * j,
        b * i + d * j,
        a * k + c * m + e,
        b * k + d * m + f,
    )


def _matrix(name: str, numbers: list[float]) -> Matrix:
    match name, numbers:
        case "matrix", [a, b, c, d, e, f]:
            return a, b, c, d, e, f
        case "translate", [x, *more] if len(more) < 2:
            return 1, 0, 0, 1, x, more[0] if more else 0
        case "scale", [x, *more] if len(more) < 2:
            return x, 0, 0, more[0] if more else x, 0, 0
        case "rotate", [degrees]:
            cosine, sine = _turn(degrees)
            return cosine, sine, -sine, cosine, 0, 0
        case "rotate", [degrees, x, y]:
            turned = _inside((1, 0, 0, 1, x, y), _matrix("rotate", [degrees]))
            return _inside(turned, (1, 0, 0, 1, -x, -y))
        case "skewX", [degrees]:
            return 1, 0, math.tan(math.radians(degrees)), 1, 0, 0
        case "skewY", [degrees]:
            return 1, math.tan(math.radians(degrees)), 0, 1, 0, 0
    raise ValueError(f"a transform “{name}” of {so_many(numbers, 'number')}")


def _turn(degrees: float) -> tuple[float, float]:
    return math.cos(math.radians(degrees)), math.sin(math.radians(degrees))


# -- how far it reaches ------------------------------------------------------------


def after(matrix: Matrix, path: Path) -> Iterator[tuple[float, float]]:
    """Give points of a path, moved, among them those that reach farthest."""
    for one in path:
        if isinstance(one, Move):
            continue
        for at in (one.start, one.end):
            yield _point(matrix, at)
        if isinstance(one, Arc):
            yield from _of_arc(matrix, one)
        elif isinstance(one, CubicBezier | QuadraticBezier):
            yield from _of_bezier(matrix, one)


def _point(matrix: Matrix, at: complex) -> tuple[float, float]:
    a, b, c, d, e, f = matrix
    return a * at.real + c * at.imag + e, b * at.real + d * at.imag + f


def _of_bezier(
    matrix: Matrix, one: CubicBezier | QuadraticBezier
) -> Iterator[tuple[float, float]]:
    if isinstance(one, CubicBezier):
        held = [one.start, one.control1, one.control2, one.end]
    else:
        # A quadratic as the cubic it is: its control counts two thirds at each end.
        held = [
            one.start,
            one.start + 2 / 3 * (one.control - one.start),
            one.end + 2 / 3 * (one.control - one.end),
            one.end,
        ]
    points = [_point(matrix, at) for at in held]
    for axis in (0, 1):
        p0, p1, p2, p3 = (point[axis] for point in points)
        curved, slope, rise = p3 - 3 * p2 + 3 * p1 - p0, p2 - 2 * p1 + p0, p1 - p0
        for at in _roots(curved, 2 * slope, rise):
            if 0 < at < 1:
                yield _at(points, at)


def _roots(a: float, b: float, c: float) -> Iterator[float]:
    """Give where a·t² + b·t + c is nought."""
    if abs(a) <= 1e-12 * max(abs(b), abs(c)):
        if b:
            yield -c / b
        return
    under = b * b - 4 * a * c
    if under >= 0:
        # The stable pair: no difference of two nearly equal numbers.
        q = -(b + math.copysign(math.sqrt(under), b)) / 2
        yield q / a
        if q:
            yield c / q


def _at(points: list[tuple[float, float]], t: float) -> tuple[float, float]:
    shares = (1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t * t, t**3
    x, y = (
        sum(share * point[axis] for share, point in zip(shares, points, strict=True))
        for axis in (0, 1)
    )
    return x, y


def _of_arc(matrix: Matrix, one: Arc) -> Iterator[tuple[float, float]]:
    if one.start == one.end or not (one.radius.real and one.radius.imag):
        return
    radius = one.radius * one.radius_scale
    cosine, sine = _turn(one.rotation)
    a, b, c, d, _, _ = matrix
    along = radius.real * cosine, radius.real * sine
    aside = -radius.imag * sine, radius.imag * cosine
    for row in ((a, c), (b, d)):
        by_cosine = row[0] * along[0] + row[1] * along[1]
        by_sine = row[0] * aside[0] + row[1] * aside[1]
        farthest = math.degrees(math.atan2(by_sine, by_cosine))
        for angle in (farthest, farthest + 180):
            if _passed(one, angle):
                x, y = _turn(angle)
                on = complex(x * along[0] + y * aside[0], x * along[1] + y * aside[1])
                yield _point(matrix, one.center + on)


def _passed(one: Arc, angle: float) -> bool:
    """Tell whether an arc goes through an angle, in degrees, of its own ellipse."""
    turned: float = angle - one.theta if one.delta > 0 else one.theta - angle
    return turned % 360 < abs(one.delta)
