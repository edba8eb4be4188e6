"""Variances of a gauge study: of the gauge, of hands, of their taste, of parts.

Repeatability is what one hand scatters on one part, reproducibility what hands
differ by. By analysis of variance the hands' taste for single parts is told
apart; by averages and ranges it is not, but a pencil is enough. Both follow the
AIAG reference manual on measurement systems analysis, whose worked study is a
check; the manual itself was not read.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.shop.measuring.control_constants import constants
from logbook.shop.measuring.statistics import mean_of

Runs = Mapping[str, Sequence[Sequence[float]]]
"""Readings by operator, then by trial, then by part in a fixed order."""


_MANY_RANGES = 15
"""From more ranges than this d2 itself is taken, as the manual's tables do."""


@dataclass(frozen=True, slots=True)
class Anova:
    """Sums of squares of a study, and whether the interaction was pooled."""

    operators: float
    parts: float
    interaction: float
    repeats: float
    f_interaction: float
    p_interaction: float
    pooled: bool

    @property
    def total(self) -> float:
        """Sum of squares of all readings."""
        return self.operators + self.parts + self.interaction + self.repeats


@dataclass(frozen=True, slots=True)
class Study:
    """Variances of a study: of the gauge, of hands, of their taste, of parts."""

    repeatability: float
    operator: float
    interaction: float
    part: float
    anova: Anova | None = None

    @property
    def reproducibility(self) -> float:
        """Variance between hands, their taste for single parts included."""
        return self.operator + self.interaction

    @property
    def gauge(self) -> float:
        """Variance of gauge and hands together."""
        return self.repeatability + self.reproducibility

    @property
    def total(self) -> float:
        """Variance of gauge, hands and parts."""
        return self.gauge + self.part

    @property
    def categories(self) -> int:
        """How many sizes of part the gauge tells apart, cut down to a whole one."""
        if not self.gauge:
            return 0
        return math.floor(math.sqrt(2 * self.part / self.gauge))


def shape(runs: Runs) -> tuple[int, int, int]:
    """Give operators, parts and trials of a study.

    Raises:
        BadInput: fewer than two of each, or operators that measured unequally.
    """
    trials = {len(passes) for passes in runs.values()}
    parts = {len(one) for passes in runs.values() for one in passes}
    if len(trials) != 1 or len(parts) != 1:
        raise BadInput(
            "the runs differ in parts or trials; accepted: every operator measures "
            "every part as often, in the same order"
        )
    size = len(runs), parts.pop(), trials.pop()
    if min(size) < 2:
        raise BadInput(
            f"found {size[0]} operators, {size[1]} parts, {size[2]} trials; accepted: "
            "at least two of each"
        )
    return size


def by_anova(runs: Runs, alpha: float = 0.25) -> Study:
    """Work out a study by analysis of variance, parts and operators at random.

    The interaction is pooled with the repeats where it is no more than chance,
    that is where its p is above `alpha`. A variance that comes out negative is 0.

    Raises:
        BadInput: as for `shape`, or a study without any spread.
    """
    from scipy.special import fdtrc

    k, n, r = shape(runs)
    operators, of_parts, taste, repeats = _squares(runs)
    if not repeats:
        raise _alike()
    free_taste, free_repeats = (k - 1) * (n - 1), k * n * (r - 1)
    ms_repeats, ms_taste = repeats / free_repeats, taste / free_taste
    f = ms_taste / ms_repeats
    p = float(fdtrc(free_taste, free_repeats, f))
    pooled = p > alpha
    error = (taste + repeats) / (free_taste + free_repeats) if pooled else ms_repeats
    beside = error if pooled else ms_taste
    return Study(
        error,
        max(0.0, (operators / (k - 1) - beside) / (n * r)),
        0.0 if pooled else max(0.0, (ms_taste - error) / r),
        max(0.0, (of_parts / (n - 1) - beside) / (k * r)),
        Anova(operators, of_parts, taste, repeats, f, p, pooled),
    )


def _squares(runs: Runs) -> tuple[float, float, float, float]:
    """Give the sums of squares: of operators, of parts, of their taste, of repeats."""
    k, n, r = shape(runs)
    cells = [
        [mean_of([one[part] for one in runs[who]]) for part in range(n)] for who in runs
    ]
    hands = [mean_of(row) for row in cells]
    parts = [mean_of([row[part] for row in cells]) for part in range(n)]
    all_ = mean_of(hands)
    operators = n * r * math.fsum((one - all_) ** 2 for one in hands)
    of_parts = k * r * math.fsum((one - all_) ** 2 for one in parts)
    taste = r * math.fsum(
        (cells[i][j] - hands[i] - parts[j] + all_) ** 2
        for i in range(k)
        for j in range(n)
    )
    repeats = math.fsum(
        (one[j] - cells[i][j]) ** 2
        for i, passes in enumerate(runs.values())
        for one in passes
        for j in range(n)
    )
    return operators, of_parts, taste, repeats


def by_ranges(runs: Runs) -> Study:
    """Work out a study by averages and ranges.

    Raises:
        BadInput: as for `shape`, or trials that do not differ.
    """
    k, n, r = shape(runs)
    ranges = [
        _range([one[part] for one in passes])
        for passes in runs.values()
        for part in range(n)
    ]
    repeat = mean_of(ranges) / _d2_star(r, len(ranges))
    if not repeat:
        raise _alike()
    hands = [
        mean_of([each for one in passes for each in one]) for passes in runs.values()
    ]
    between_hands = (_range(hands) / _d2_star(k, 1)) ** 2 - repeat**2 / (n * r)
    parts = [
        mean_of([one[part] for passes in runs.values() for one in passes])
        for part in range(n)
    ]
    part = _range(parts) / _d2_star(n, 1)
    return Study(repeat**2, max(0.0, between_hands), 0.0, part**2)


def _alike() -> BadInput:
    return BadInput("the trials do not differ; accepted: readings with some spread")


def _d2_star(size: int, ranges: int) -> float:
    """Give what a mean of so many ranges is divided by: √(d2² + d3²/g)."""
    known = constants(size)
    if ranges > _MANY_RANGES:
        return known.d2
    return math.sqrt(known.d2**2 + known.d3**2 / ranges)


def _range(values: Sequence[float]) -> float:
    return max(values) - min(values)
