"""Control chart constants, worked out from the normal spread, not copied.

Printed tables are built from rounded d2 and differ in the third decimal.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import Given, Input, Kind, at_least
from logbook.shop.sums import Sum

LARGEST_GROUP = 50


@dataclass(frozen=True, slots=True)
class Constants:
    """Control chart constants for subgroups of one size."""

    d2: float
    d3: float
    c4: float

    @property
    def range_share(self) -> float:
        """Three standard deviations of the range over its mean."""
        return 3 * self.d3 / self.d2

    @property
    def sd_share(self) -> float:
        """Three standard deviations of s over its mean."""
        return 3 * math.sqrt(1 - self.c4**2) / self.c4

    def named(self, size: int) -> dict[str, float]:
        """Give all constants under their usual names."""
        root = math.sqrt(size)
        return {
            "A2": 3 / (self.d2 * root),
            "d2": self.d2,
            "d3": self.d3,
            "D3": max(0.0, 1 - self.range_share),
            "D4": 1 + self.range_share,
            "A3": 3 / (self.c4 * root),
            "c4": self.c4,
            "B3": max(0.0, 1 - self.sd_share),
            "B4": 1 + self.sd_share,
            "E2": 3 / self.d2,
        }


@cache
def constants(size: int) -> Constants:
    """Work out the constants for subgroups of `size` readings.

    d2 and d3 are the mean and standard deviation of the range of `size`
    standard normal readings, by integrals that end in the last figures of a
    float (rectangles on a smooth curve that dies off at both ends).

    Raises:
        BadInput: a size outside 2 to 50.
    """
    import numpy as np
    from scipy.special import ndtr

    if not 2 <= size <= LARGEST_GROUP:
        raise BadInput(
            f"found subgroups of {size}; accepted: from 2 to {LARGEST_GROUP} readings"
        )
    step = 0.05
    at = np.arange(-9, 9, step)
    widths = np.arange(0, 18, step)
    density = np.exp(-(at**2) / 2) / math.sqrt(2 * math.pi)
    held = (ndtr(at[:, None] + widths) - ndtr(at[:, None])) ** (size - 1)
    above_width = 1 - size * step * (density @ held)
    d2 = float(step * (ndtr(at) ** 0 - ndtr(at) ** size - ndtr(-at) ** size).sum())
    # The curve starts at full height with its own slope: Simpson, not rectangles.
    second = 2 * _simpson(widths * above_width, step)
    c4 = math.sqrt(2 / (size - 1)) * math.exp(
        math.lgamma(size / 2) - math.lgamma((size - 1) / 2)
    )
    return Constants(d2, math.sqrt(second - d2**2), c4)


def _simpson(heights: Sequence[float], step: float) -> float:
    odd = math.fsum(heights[1::2])
    even = math.fsum(heights[2::2])
    return step / 3 * (heights[0] + 4 * odd + 2 * even)


def _compute_constants(given: Given) -> Answer:
    size = given.count("size")
    named = constants(size).named(size)
    return Answer(tuple(Result(name, value, "", 4) for name, value in named.items()))


SUMS: tuple[Sum, ...] = (
    Sum(
        name="chart-constants",
        also=("control-chart-constants",),
        title="Control chart constants for a subgroup size",
        inputs=(Input("size", "readings in a subgroup", kind=Kind.COUNT,
                      accept=at_least(2, LARGEST_GROUP), also=("n", "subgroup-n")),),
        compute=_compute_constants,
        formula="from mean d2 and deviation d3 of the range and mean c4 of s of a "
        "normal sample",
        source="ASTM E2587; NIST/SEMATECH e-Handbook 6.3.2, worked out here",
        how="computed",
        example={"size": "5"},
        relied_on=False,
    ),
)  # fmt: skip
