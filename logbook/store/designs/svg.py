"""The shape of an SVG: the size of its page, and the box around what is drawn on it.

Lengths after CSS Values and Units Level 4, section 6.2: 96 px, 72 pt and 6 pc go to the
inch, 40 Q to the centimetre. How a page shows its user units after SVG 2, section 8.2
(`viewBox`, `preserveAspectRatio`). The file is read piece by piece; only an entity that
leads no further is taken, so that none grows.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, field
from typing import BinaryIO
from xml.parsers import expat

from logbook.store.designs.shapes import Box, Circle, Numbers, Shape, Unreadable
from logbook.store.designs.svg_outline import (
    OUTLINES,
    UNMOVED,
    Matrix,
    after,
    moved,
    outline,
)
from logbook.store.designs.svg_styles import Style, hides_by_rule
from logbook.units import INCH_MM

_IN_MM = {
    "mm": 1.0,
    "cm": 10.0,
    "q": 0.25,
    "in": float(INCH_MM),
    "px": float(INCH_MM) / 96,
    "pt": float(INCH_MM) / 72,
    "pc": float(INCH_MM) / 6,
}
_LENGTH = re.compile(
    r"\s*(?P<number>[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)\s*(?P<unit>[a-z%]*)\s*",
    re.IGNORECASE,
)
_SVG = "http://www.w3.org/2000/svg"
_GROUPS = frozenset({"g", "a", "switch"})
_ALSO_DRAWN = frozenset({"use", "image", "svg", "foreignObject"})
"""What may be part of an outline and is not measured here."""


def read_svg(stream: BinaryIO) -> Shape | Unreadable:
    """Read the page of an SVG, and the outline of the shapes that show on it.

    Raises:
        ValueError: a number, a path or a transform is none.
    """
    drawing = _Drawing()
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.StartElementHandler = drawing.begin
    parser.EndElementHandler = drawing.end
    parser.CharacterDataHandler = drawing.text
    parser.EntityDeclHandler = _take_entity
    try:
        parser.ParseFile(stream)
    except expat.ExpatError as error:
        return Unreadable(f"could not be read: {error}")
    if drawing.page is None:
        return Unreadable("could not be read: its root is no svg element")
    return drawing.shape(drawing.page)


def _take_entity(name: str, _: bool, value: str | None, *_more: object) -> None:  # noqa: FBT001
    if value is None or "&" in value or "%" in value:
        raise ValueError(f"an entity, “{name}”, that leads elsewhere")


@dataclass(frozen=True, slots=True)
class _Page:
    """The root: the matrix from its user units to `unit`, and its size in that."""

    matrix: Matrix
    unit: str
    numbers: Numbers
    size: tuple[float, float] | None


@dataclass(slots=True)
class _Drawing:
    """What was read so far; `stack` holds where each open group moves its shapes."""

    page: _Page | None = None
    box: Box = field(default_factory=Box)
    circles: list[Circle] = field(default_factory=list)
    stack: list[tuple[Matrix, Style]] = field(default_factory=list)
    not_shown: int = 0
    unmeasured: Counter[str] = field(default_factory=Counter)
    rules: list[str] = field(default_factory=list)
    in_rules: bool = False

    def begin(self, name: str, attributes: dict[str, str]) -> None:
        """Take an element that opens."""
        space, _, tag = name.rpartition(" ")
        self.in_rules = tag == "style"
        if self.not_shown:
            self.not_shown += 1
            return
        if self.page is None:
            if tag != "svg":
                raise ValueError("its root is no svg element")
            self.page = _page(attributes)
            matrix = moved(self.page.matrix, attributes.get("transform", ""))
            self.stack.append((matrix, Style().within(attributes)))
            return
        matrix, style = self.stack[-1]
        style = style.within(attributes)
        if space not in ("", _SVG) or style.hidden:
            self.not_shown = 1
        elif tag in _GROUPS:
            self._count_unmeasured(style, "clipped or moved by its style")
            matrix = moved(matrix, attributes.get("transform", ""))
            self.stack.append((matrix, style))
        else:
            self._draw(tag, attributes, style)
            self.not_shown = 1

    def end(self, _: str) -> None:
        """Take the end of an element."""
        self.in_rules = False
        if self.not_shown:
            self.not_shown -= 1
        else:
            self.stack.pop()

    def text(self, words: str) -> None:
        """Keep the rules of a style sheet."""
        if self.in_rules:
            self.rules.append(words)

    def _count_unmeasured(self, style: Style, what: str) -> None:
        if style.unmeasured:
            self.unmeasured[what] += 1

    def _draw(self, tag: str, attributes: dict[str, str], style: Style) -> None:
        if tag in _ALSO_DRAWN:
            self.unmeasured[tag] += 1
        if tag not in OUTLINES or not style.painted:
            return
        self._count_unmeasured(style, "clipped or moved by its style")
        lengths = {
            key: value if key in ("d", "points", "transform") else _in_user_units(value)
            for key, value in attributes.items()
            if key in OUTLINES[tag] or key == "transform"
        }
        if None in lengths.values():
            self.unmeasured[tag] += 1
            return
        matrix = moved(self.stack[-1][0], attributes.get("transform", ""))
        drawn = outline(tag, {k: v for k, v in lengths.items() if v is not None})
        reach = Box()
        for x, y in after(matrix, drawn):
            self.box.take(x, y, 0.0)
            reach.take(x, y, 0.0)
        if tag == "circle" and (round_one := _circle(reach)):
            self.circles.append(round_one)

    def shape(self, page: _Page) -> Shape:
        """Give the shape; without a size where something drawn was not measured."""
        if hides_by_rule("".join(self.rules)):
            self.unmeasured["style sheet"] += 1
        whole = not self.unmeasured
        return Shape(
            page.unit,
            self.box.size if whole else None,
            tuple(self.circles) if whole else (),
            passed_over=tuple(f"{n} {what}" for what, n in self.unmeasured.items()),
            page=page.size,
            numbers=page.numbers,
        )


def _circle(reach: Box) -> Circle | None:
    """Give the circle of this reach; None of one that was pressed to an ellipse."""
    if reach.size is None:
        return None
    across, down, _ = reach.size
    if across <= 0 or abs(across - down) > across / 1000:
        return None
    x, y = (reach.low[axis] + reach.size[axis] / 2 for axis in (0, 1))
    return Circle(x, y, across)


def _page(attributes: dict[str, str]) -> _Page:
    """Give how the root shows its user units, and at which size.

    Raises:
        ValueError: the viewBox is no four numbers.
    """
    view = _view(attributes.get("viewBox", ""))
    width, height = (_length(attributes.get(name, "")) for name in ("width", "height"))
    if width is None or height is None or not (width[0] > 0 and height[0] > 0):
        return _Page(UNMOVED, "", Numbers.USER_UNITS, view)
    if not (width[1] and height[1]):
        # User units alone: CSS takes them for pixels, many programs for millimetres.
        return _Page(UNMOVED, "", Numbers.USER_UNITS, view or (width[0], height[0]))
    unit = "in" if width[1] == height[1] == "in" else "mm"
    across, down = (
        number * _IN_MM[named] / _IN_MM[unit] for number, named in (width, height)
    )
    along = aside = _IN_MM["px"] / _IN_MM[unit]
    if view is not None:
        along, aside = _scales(across / view[0], down / view[1], attributes)
    pixels = "px" in (width[1], height[1])
    return _Page(
        (along, 0.0, 0.0, aside, 0.0, 0.0),
        unit,
        Numbers.PIXELS if pixels else Numbers.LENGTHS,
        (across, down),
    )


def _view(words: str) -> tuple[float, float] | None:
    if not words.strip():
        return None
    numbers = [float(one) for one in words.replace(",", " ").split()]
    if len(numbers) != 4:
        raise ValueError(f"a viewBox “{words[:30]}” that is no four numbers")
    wide, high = numbers[2:]
    return (wide, high) if wide > 0 and high > 0 else None


def _scales(
    across: float, down: float, attributes: dict[str, str]
) -> tuple[float, float]:
    """Give what a user unit becomes on the page, along x and y."""
    words = attributes.get("preserveAspectRatio", "").split()
    if "none" in words:
        return across, down
    one = max(across, down) if "slice" in words else min(across, down)
    return one, one


def _length(words: str) -> tuple[float, str] | None:
    """Give the number and the unit of a length; None for a share or no length."""
    found = _LENGTH.fullmatch(words)
    if found is None:
        return None
    unit = found["unit"].lower()
    return (float(found["number"]), unit) if unit in ("", *_IN_MM) else None


def _in_user_units(words: str) -> str | None:
    """Give a length of a shape as a number of user units; None for a share of one."""
    length = _length(words)
    if length is None:
        return None
    number, unit = length
    return repr(number * (_IN_MM[unit] / _IN_MM["px"] if unit else 1.0))
