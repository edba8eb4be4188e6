"""Chains of dimensions: what the gap at the end comes to, and how surely.

Worst case, root sum of squares, and the exact spread: the densities of all
contributors folded into one on a fine grid. Folding is exact for a linear chain
whatever the shapes; a formula that is not linear goes to `logbook.shop.chains.trials`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from logbook.errors import BadInput
from logbook.shop.chains.spread import Contributor, Share, masses, shares, width

CELLS = 12_000
"""Cells of the grid over the whole spread."""


@dataclass(frozen=True, slots=True)
class Folded:
    """The spread of a gap on a grid: the chance of each cell.

    `first` is the middle of the first cell, `step` the width of each.
    """

    first: float
    step: float
    chances: Any
    edges: Any

    def below(self, limit: float) -> float:
        """Give the chance that the gap is smaller than `limit`."""
        import numpy as np

        place = (limit - self.first) / self.step + 0.5
        known = np.arange(len(self.edges))
        return float(np.interp(place, known, self.edges, left=0.0, right=1.0))

    def between(self, low: float | None, high: float | None) -> float:
        """Give the chance of landing between two limits; `None` is no limit."""
        under = 0.0 if low is None else self.below(low)
        over = 1.0 if high is None else self.below(high)
        return max(0.0, over - under)

    def quantile(self, chance: float) -> float:
        """Give the size that the gap stays below with this chance."""
        import numpy as np

        place = float(np.interp(chance, self.edges, np.arange(len(self.edges))))
        return self.first + (place - 0.5) * self.step


@dataclass(frozen=True, slots=True)
class Part:
    """What one contributor, or one set-up, does to the gap.

    `worst` is its half width, `sd` its standard deviation, `share` its part of
    the variance (0 to 1).
    """

    names: tuple[str, ...]
    worst: float
    sd: float
    share: float


@dataclass(frozen=True, slots=True)
class StackUp:
    """A worked-out chain, in the unit of its contributors."""

    nominal: float
    centre: float
    worst: float
    rss: float
    sd: float
    parts: tuple[Part, ...]
    folded: Folded

    @property
    def worst_low(self) -> float:
        """The smallest gap that the limits allow."""
        return self.centre - self.worst

    @property
    def worst_high(self) -> float:
        """The largest gap that the limits allow."""
        return self.centre + self.worst

    @property
    def rss_low(self) -> float:
        """The centred nominal less the root sum of squares."""
        return self.centre - self.rss

    @property
    def rss_high(self) -> float:
        """The centred nominal and the root sum of squares."""
        return self.centre + self.rss

    def interval(self, coverage: float = 0.95) -> tuple[float, float]:
        """Give the limits that hold `coverage` of all gaps, equal tails."""
        tail = (1 - coverage) / 2
        return self.folded.quantile(tail), self.folded.quantile(1 - tail)


def stack_up(contributors: Sequence[Contributor], offset: float = 0.0) -> StackUp:
    """Work out a linear chain: gap = offset + Σ direction × size.

    One-sided tolerances are re-centred first; contributors of one set-up add
    straight, all others are taken as independent. Formulas: worst case Σ |c·h|,
    RSS √Σ(c·h)², with h half the width between the limits.

    Raises:
        BadInput: no contributor, or one set-up with two shapes.
    """
    if not contributors:
        raise BadInput("a chain without a dimension; accepted: at least one")
    together = shares(contributors)
    nominal = offset + math.fsum(one.direction * one.stated for one in contributors)
    centre = offset + math.fsum(one.direction * one.centre for one in contributors)
    total = math.fsum(share.sd**2 for share in together)
    parts = tuple(
        Part(
            share.names,
            abs(share.reach),
            share.sd,
            share.sd**2 / total if total else 0.0,
        )
        for share in together
    )
    return StackUp(
        nominal,
        centre,
        math.fsum(abs(share.reach) for share in together),
        math.sqrt(math.fsum(share.reach**2 for share in together)),
        math.sqrt(total),
        parts,
        fold(together, centre),
    )


def fold(together: Sequence[Share], centre: float) -> Folded:
    """Fold the densities of independent shares into that of their sum."""
    import numpy as np

    span = math.fsum(width(share) for share in together)
    step = 2 * span / CELLS if span else 1e-9 * max(1.0, abs(centre))
    grids = [masses(share, step) for share in together]
    count = sum(len(grid) - 1 for grid in grids) + 1
    size = _good_size(count)
    product = np.fft.rfft(grids[0], size)
    for grid in grids[1:]:
        product *= np.fft.rfft(grid, size)
    chances = np.maximum(np.fft.irfft(product, size)[:count], 0.0)
    chances /= chances.sum()
    edges = np.concatenate(([0.0], np.cumsum(chances)))
    return Folded(centre - (count - 1) / 2 * step, step, chances, edges)


def _good_size(count: int) -> int:
    """Give the next size of the form 2ᵃ, 3·2ᵃ or 5·2ᵃ, quick to transform."""
    sizes = [factor << power for factor in (1, 3, 5) for power in range(3, 26)]
    return min(size for size in sizes if size >= count)
