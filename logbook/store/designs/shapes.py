"""The shape a design file says of itself, and the box around its points.

All sizes are floats in the file's own unit, as good as the file. Whatever is wrong
with a file is an `Unreadable`, a value.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import Enum, auto

LONGEST_LINE = 100_000
"""Bytes read of a line of text; no line of a drawing is longer."""


class Numbers(Enum):
    """What the numbers of a file are.

    Lengths, told or untold in which unit; pixels, of which CSS puts 96 to the inch; or
    the user units of a drawing, and nobody knows how long one is.
    """

    LENGTHS = auto()
    PIXELS = auto()
    USER_UNITS = auto()


@dataclass(frozen=True, slots=True)
class Circle:
    """A full circle: where its centre is, and how wide it is across."""

    x: float
    y: float
    across: float


@dataclass(frozen=True, slots=True)
class Shape:
    """What was read; `unit` is empty where the file does not say.

    `size` is x, y, z in that unit, None without anything known to measure.
    `circles` are the full ones, which in a flat pattern are holes or its outline.
    `passed_over` names entities that are there but not in the size. `page` is the sheet
    of paper of a drawing, across and down, never the size of what is on it. `unit_told`
    where the unit is not the file's own word but on record.
    """

    unit: str
    size: tuple[float, float, float] | None
    circles: tuple[Circle, ...] = ()
    triangles: int = 0
    layers: tuple[str, ...] = ()
    passed_over: tuple[str, ...] = ()
    page: tuple[float, float] | None = None
    numbers: Numbers = Numbers.LENGTHS
    unit_told: bool = False


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A file nothing can be said of, and why."""

    why: str


@dataclass(slots=True)
class Box:
    """The smallest upright box around the points seen."""

    low: list[float] = field(default_factory=lambda: [math.inf] * 3)
    high: list[float] = field(default_factory=lambda: [-math.inf] * 3)

    def take(self, *point: float) -> None:
        """Make the box hold a point of two or three coordinates.

        Raises:
            ValueError: a coordinate is not a finite number.
        """
        if not all(map(math.isfinite, point)):
            raise ValueError("a coordinate that is not a number")
        for axis, value in enumerate(point):
            self.low[axis] = min(self.low[axis], value)
            self.high[axis] = max(self.high[axis], value)

    @property
    def size(self) -> tuple[float, float, float] | None:
        """The box along x, y, z; None before any point was seen."""
        if math.inf in self.low[:2]:
            return None
        x, y, z = (b - a for a, b in zip(self.low, self.high, strict=True))
        return x, y, max(z, 0.0)
