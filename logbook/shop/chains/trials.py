"""Chains that are not linear: drawn many times, with the error of drawing.

Contributors are drawn in chunks that stay in the processor's cache, in single
precision unless their spread is too small beside their size. Every figure comes
with its standard error, so that nobody reads noise as a result.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from logbook.errors import BadInput
from logbook.shop.chains.spread import Contributor, draw

TRIALS = 1_000_000
CHUNK = 1 << 16
MOST_TRIALS = 20_000_000
FINE = 1e-5
"""Below this ratio of spread to size single precision would show."""


@dataclass(frozen=True, slots=True)
class Estimate:
    """A figure from sampling, with its standard error."""

    value: float
    error: float


@dataclass(frozen=True, slots=True)
class Trials:
    """Gaps as drawn, in rising order."""

    sizes: Any
    mean: Estimate
    sd: Estimate

    def between(self, low: float | None, high: float | None) -> Estimate:
        """Give the chance of landing between two limits; `None` is no limit."""
        import numpy as np

        count = len(self.sizes)
        under = 0 if low is None else np.searchsorted(self.sizes, low, "left")
        over = count if high is None else np.searchsorted(self.sizes, high, "right")
        chance = max(0.0, float(over - under) / count)
        # One miss more and one hit more keep the error above 0 at the ends.
        likely = (chance * count + 1) / (count + 2)
        return Estimate(chance, math.sqrt(likely * (1 - likely) / count))

    def quantile(self, chance: float) -> Estimate:
        """Give the size below which this share of the gaps lies.

        The error is half the distance between the order statistics one
        standard error of the rank to either side.
        """
        count = len(self.sizes)
        spread = math.sqrt(count * chance * (1 - chance))
        places = [chance * count + shift for shift in (-spread, 0, spread)]
        low, middle, high = (
            float(self.sizes[min(count - 1, max(0, int(place)))]) for place in places
        )
        return Estimate(middle, (high - low) / 2)


def try_out(
    gap: Callable[[Mapping[str, Any]], Any],
    contributors: Sequence[Contributor],
    count: int = TRIALS,
    seed: int = 1,
) -> Trials:
    """Draw all contributors `count` times and work out the gap each time.

    `gap` is given an array of sizes for each name and returns the array of
    gaps. The same seed gives the same answer.

    Raises:
        BadInput: fewer than 1000 or more than 20 000 000 trials, two
            contributors of one name, or gaps that are no finite figures.
    """
    import numpy as np

    if not 1000 <= count <= MOST_TRIALS:
        raise BadInput(f"found {count} trials; accepted: from 1000 to {MOST_TRIALS}")
    names = [one.name for one in contributors]
    if len(set(names)) < len(names):
        raise BadInput("two contributors have one name; accepted: each its own name")
    kind = np.float32 if all(map(_coarse, contributors)) else np.float64
    generator = np.random.Generator(np.random.SFC64(seed))
    sizes = np.empty(count, kind)
    for start in range(0, count, CHUNK):
        some = min(CHUNK, count - start)
        sizes[start : start + some] = gap(_sizes(contributors, generator, some, kind))
    if not np.isfinite(sizes).all():
        raise BadInput("some gaps are no figures; accepted: a chain without such")
    return _summed(np.sort(sizes), count)


def _summed(sizes: Any, count: int) -> Trials:
    import numpy as np

    mean = float(sizes.mean(dtype=np.float64))
    off = sizes - sizes.dtype.type(mean)
    square = off * off
    variance = float(square.mean(dtype=np.float64)) * count / (count - 1)
    fourth = float(np.dot(square, square)) / count
    sd = math.sqrt(variance)
    # The standard error of a standard deviation, whatever the shape.
    error = math.sqrt(max(0.0, fourth - variance**2) / count) / (2 * sd) if sd else 0.0
    return Trials(sizes, Estimate(mean, sd / math.sqrt(count)), Estimate(sd, error))


def _coarse(one: Contributor) -> bool:
    return one.sd > FINE * abs(one.centre) or not one.sd


def _sizes(
    contributors: Sequence[Contributor], generator: Any, count: int, kind: Any
) -> dict[str, Any]:
    """Draw sizes; contributors of one set-up move with one common draw."""
    found: dict[str, Any] = {}
    common: dict[str, tuple[Contributor, Any]] = {}
    for one in contributors:
        if one.setup and one.setup in common:
            first, drawn = common[one.setup]
            if first.shape is not one.shape or first.coverage != one.coverage:
                raise BadInput(
                    f"{first.name} and {one.name} share the set-up {one.setup} but not "
                    "their shape; accepted: one shape with limits for one set-up"
                )
            off = drawn * kind(one.half / first.half if first.half else 0.0)
        else:
            off = draw(one, generator, count, kind)
            if one.setup:
                common[one.setup] = (one, off.copy())
        off += kind(one.centre)
        found[one.name] = off
    return found
