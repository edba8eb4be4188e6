"""How one dimension spreads: normal, uniform, triangular, or from readings.

A `Contributor` is one dimension of a chain with its limits. Its shape says how
the size falls between them. All lengths are in one unit, usually mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from logbook.counting import so_many
from logbook.errors import BadInput

FEWEST_READINGS = 4
"""Below this the spread of a next piece has no variance (JCGM 101, 6.4.9.2)."""


class Shape(StrEnum):
    """How sizes fall between the limits."""

    NORMAL = "normal"
    UNIFORM = "uniform"
    TRIANGULAR = "triangular"
    MEASURED = "measured"


@dataclass(frozen=True, slots=True)
class Contributor:
    """One dimension of a chain.

    Args:
        name: What it is called.
        nominal: Its nominal size, or what it was measured as.
        plus: Upper deviation from the nominal (0.1 for +0.1).
        minus: Lower deviation as a positive figure (0.1 for −0.1); negative
            when both limits lie above the nominal.
        direction: Its factor in the chain: +1 opens the gap, −1 closes it; any
            other slope of a formula.
        shape: How sizes fall between the limits.
        coverage: For a normal shape, how many standard deviations the limits
            lie from the middle: 3 for a drawing tolerance of a capable process,
            2 for a ±U or a scatter of about 95 %.
        setup: Contributors with the same set-up share one error: it adds
            straight, with the signs of their directions.
        readings: For a measured shape, sizes of earlier pieces.

    Raises:
        BadInput: limits the wrong way round, a figure that is none, or too few
            readings.
    """

    name: str
    nominal: float
    plus: float = 0.0
    minus: float = 0.0
    direction: float = 1.0
    shape: Shape = Shape.NORMAL
    coverage: float = 3.0
    setup: str = ""
    readings: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        figures = (self.nominal, self.plus, self.minus, self.direction, self.coverage)
        if not all(map(math.isfinite, (*figures, *self.readings))):
            raise BadInput(f"{self.name}: found no finite figure; accepted: numbers")
        if self.plus + self.minus < 0:
            raise BadInput(
                f"{self.name}: the lower limit is above the upper; "
                "accepted: plus and minus as deviations from the nominal"
            )
        if self.coverage <= 0:
            raise BadInput(
                f"{self.name}: {self.coverage:g} standard deviations between middle "
                "and limit; accepted: more than 0, usually 2 or 3"
            )
        if self.shape is Shape.MEASURED and len(self.readings) < FEWEST_READINGS:
            raise BadInput(
                f"{self.name}: {so_many(self.readings, 'reading')} cannot show a "
                f"spread; accepted: at least {FEWEST_READINGS}, or limits instead"
            )

    @property
    def stated(self) -> float:
        """The nominal size, or the mean of the readings."""
        return self.centre if self.shape is Shape.MEASURED else self.nominal

    @property
    def centre(self) -> float:
        """The middle of the limits, or the mean of the readings."""
        if self.shape is Shape.MEASURED:
            return math.fsum(self.readings) / len(self.readings)
        return self.nominal + (self.plus - self.minus) / 2

    @property
    def half(self) -> float:
        """Half the width between the limits; for readings, three deviations."""
        if self.shape is Shape.MEASURED:
            return 3 * self.scale
        return (self.plus + self.minus) / 2

    @property
    def freedom(self) -> int:
        """Degrees of freedom of the readings."""
        return len(self.readings) - 1

    @property
    def scale(self) -> float:
        """Scale of the spread of a next piece: s √(1 + 1/n), of Student's t."""
        mean, count = self.centre, len(self.readings)
        total = math.fsum((reading - mean) ** 2 for reading in self.readings)
        return math.sqrt(total / (count - 1) * (1 + 1 / count))

    @property
    def sd(self) -> float:
        """Standard deviation of its shape."""
        match self.shape:
            case Shape.NORMAL:
                return self.half / self.coverage
            case Shape.UNIFORM:
                return self.half / math.sqrt(3)
            case Shape.TRIANGULAR:
                return self.half / math.sqrt(6)
            case Shape.MEASURED:
                return self.scale * math.sqrt(self.freedom / (self.freedom - 2))


@dataclass(frozen=True, slots=True)
class Share:
    """Contributors that move together, as one deviation about its centre.

    `reach` is the signed sum of direction × half width; `sd` and `scale` are
    widths of the deviation, never negative.
    """

    names: tuple[str, ...]
    shape: Shape
    reach: float
    sd: float
    freedom: int = 0
    scale: float = 0.0


def shares(contributors: Sequence[Contributor]) -> list[Share]:
    """Put contributors of one set-up together; all others stand alone.

    Raises:
        BadInput: one set-up has two shapes.
    """
    groups: dict[object, list[Contributor]] = {}
    for place, one in enumerate(contributors):
        groups.setdefault(one.setup or place, []).append(one)
    return [_share(group) for group in groups.values()]


def _share(group: list[Contributor]) -> Share:
    first = group[0]
    for one in group:
        alike = one.shape is first.shape and one.coverage == first.coverage
        if not alike or (len(group) > 1 and one.shape is Shape.MEASURED):
            raise BadInput(
                f"{first.name} and {one.name} share the set-up {first.setup} but not "
                "their shape; accepted: one shape with limits for one set-up"
            )
    return Share(
        tuple(one.name for one in group),
        first.shape,
        math.fsum(one.direction * one.half for one in group),
        abs(math.fsum(one.direction * one.sd for one in group)),
        first.freedom if first.shape is Shape.MEASURED else 0,
        abs(first.direction) * first.scale if first.shape is Shape.MEASURED else 0.0,
    )


def width(share: Share) -> float:
    """How far from its centre a share is followed on a grid."""
    match share.shape:
        case Shape.NORMAL:
            return 8 * share.sd
        case Shape.MEASURED:
            return share.scale * _far(share.freedom)
        case _:
            return abs(share.reach)


def _far(freedom: int) -> float:
    """Give a bound of Student's t beyond which about a millionth lies."""
    return min(100.0, 8 + 10 ** (6 / freedom))


def masses(share: Share, step: float) -> Any:
    """Give the chance of each cell of a grid centred on the share's middle.

    There is an odd number of cells of width `step`.
    """
    import numpy as np

    count = max(0, math.ceil(width(share) / step))
    at = np.arange(-count, count + 1) * step
    match share.shape:
        case Shape.NORMAL if share.sd > step:
            weights = np.exp(-0.5 * (at / share.sd) ** 2)
        case Shape.MEASURED if share.scale > step:
            freedom = share.freedom
            weights = (1 + (at / share.scale) ** 2 / freedom) ** (-(freedom + 1) / 2)
        case Shape.UNIFORM | Shape.TRIANGULAR if share.reach:
            weights = np.diff(_below(share, np.append(at, at[-1] + step) - step / 2))
        case _:
            weights = np.exp(-0.5 * (at / max(share.sd, step / 3)) ** 2)
    return weights / weights.sum()


def _below(share: Share, at: Any) -> Any:
    """Cumulative chance of a uniform or triangular share."""
    import numpy as np

    part = np.clip(at / abs(share.reach), -1, 1)
    if share.shape is Shape.UNIFORM:
        return (part + 1) / 2
    return np.where(part < 0, (1 + part) ** 2 / 2, 1 - (1 - part) ** 2 / 2)


def draw(one: Contributor, generator: Any, count: int, kind: Any) -> Any:
    """Draw `count` deviations of a contributor from its centre, as `kind`."""
    import numpy as np

    match one.shape:
        case Shape.NORMAL:
            found = generator.standard_normal(count, dtype=kind)
            found *= kind(one.sd)
        case Shape.UNIFORM:
            found = generator.random(count, dtype=kind)
            found -= kind(0.5)
            found *= kind(2 * one.half)
        case Shape.TRIANGULAR:
            found = generator.random(count, dtype=kind)
            found -= generator.random(count, dtype=kind)
            found *= kind(one.half)
        case Shape.MEASURED:
            found = generator.standard_t(one.freedom, count) * one.scale
            found = found.astype(kind)
    assert found.dtype == np.dtype(kind)
    return found
