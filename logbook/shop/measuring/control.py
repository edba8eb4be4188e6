"""Control charts and capability: is a process settled, and is it good enough.

The constants are worked out from the normal spread, not copied: printed tables
are built from rounded d2 and differ in the third decimal.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.given import READING, Given, Input, Kind, above, at_least
from logbook.shop.measuring.statistics import CONFIDENCE, READINGS, spread_places
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


@dataclass(frozen=True, slots=True)
class Chart:
    """Centre line and control limits, and which points lie outside (from 1)."""

    centre: float
    lower: float
    upper: float
    outside: tuple[int, ...]


def _chart(points: Sequence[float], centre: float, lower: float, upper: float) -> Chart:
    out = tuple(
        place for place, point in enumerate(points, 1) if not lower <= point <= upper
    )
    return Chart(centre, lower, upper, out)


@dataclass(frozen=True, slots=True)
class Individuals:
    """An individuals chart with its moving-range chart."""

    readings: Chart
    ranges: Chart
    sigma: float


def individuals(readings: Sequence[float], d2: float | None = None) -> Individuals:
    """Work out an individuals chart: mean ± 3 × mean moving range / d2.

    Raises:
        BadInput: fewer than three readings.
    """
    if len(readings) < 3:
        raise BadInput(f"found {len(readings)} readings; accepted: at least three")
    moved = [abs(after - before) for before, after in itertools.pairwise(readings)]
    pair = constants(2)
    mean, mean_range = _mean(readings), _mean(moved)
    sigma = mean_range / (d2 or pair.d2)
    top = mean_range * (1 + pair.range_share)
    return Individuals(
        _chart(readings, mean, mean - 3 * sigma, mean + 3 * sigma),
        _chart(moved, mean_range, 0.0, top),
        sigma,
    )


def _mean(values: Sequence[float]) -> float:
    return math.fsum(values) / len(values)


@dataclass(frozen=True, slots=True)
class Grouped:
    """Charts of subgroups: means by R and by s, ranges, deviations."""

    means: Chart
    ranges: Chart
    means_by_s: Chart
    deviations: Chart
    sigma_by_range: float
    sigma_by_s: float


def grouped(groups: Sequence[Sequence[float]]) -> Grouped:
    """Work out mean, range and s charts of subgroups of one size.

    Raises:
        BadInput: fewer than two subgroups, or subgroups of different size.
    """
    sizes = {len(group) for group in groups}
    if len(groups) < 2 or len(sizes) != 1:
        raise BadInput(
            "subgroups differ in size or are fewer than two; accepted: "
            "at least two subgroups with the same number of readings"
        )
    size = sizes.pop()
    known = constants(size)
    means = [_mean(group) for group in groups]
    ranges = [max(group) - min(group) for group in groups]
    sds = [_sd(group) for group in groups]
    centre, wide, spread = _mean(means), _mean(ranges), _mean(sds)
    by_range, by_s = wide / known.d2, spread / known.c4
    root = math.sqrt(size)
    named = known.named(size)
    return Grouped(
        _chart(
            means, centre, centre - 3 * by_range / root, centre + 3 * by_range / root
        ),
        _chart(ranges, wide, named["D3"] * wide, named["D4"] * wide),
        _chart(means, centre, centre - 3 * by_s / root, centre + 3 * by_s / root),
        _chart(sds, spread, named["B3"] * spread, named["B4"] * spread),
        by_range,
        by_s,
    )


def _sd(group: Sequence[float]) -> float:
    mean = _mean(group)
    return math.sqrt(math.fsum((one - mean) ** 2 for one in group) / (len(group) - 1))


@dataclass(frozen=True, slots=True)
class Capability:
    """Capability indices; one-sided where only one limit is drawn.

    `cp` is None with one limit, `off` (k) too.
    """

    cp: float | None
    cpk: float
    cpu: float | None
    cpl: float | None
    off: float | None


def capability(
    mean: float, sigma: float, lower: float | None, upper: float | None
) -> Capability:
    """Work out Cp, Cpk, Cpu, Cpl and k (e-Handbook 6.1.6).

    Raises:
        BadInput: no limit, limits the wrong way round, or no spread.
    """
    if sigma <= 0:
        raise BadInput(f"found a spread of {sigma:g}; accepted: more than 0")
    cpu = None if upper is None else (upper - mean) / (3 * sigma)
    cpl = None if lower is None else (mean - lower) / (3 * sigma)
    if lower is None or upper is None:
        one = cpu if cpl is None else cpl
        if one is None:
            raise BadInput("no limits are drawn; accepted: a lower or upper limit")
        return Capability(None, one, cpu, cpl, None)
    if lower >= upper:
        raise BadInput("the lower limit is not below the upper; accepted: below it")
    assert cpu is not None
    assert cpl is not None
    off = abs((upper + lower) / 2 - mean) / ((upper - lower) / 2)
    return Capability((upper - lower) / (6 * sigma), min(cpu, cpl), cpu, cpl, off)


def cp_interval(cp: float, count: int, confidence: float) -> tuple[float, float]:
    """Give the interval of Cp by chi-square with n − 1 degrees of freedom."""
    from scipy.special import gammaincinv

    freedom, tail = count - 1, (1 - confidence) / 2
    low, high = (
        2 * float(gammaincinv(freedom / 2, chance)) for chance in (tail, 1 - tail)
    )
    return cp * math.sqrt(low / freedom), cp * math.sqrt(high / freedom)


def cpk_interval(cpk: float, count: int, confidence: float) -> tuple[float, float]:
    """Give the interval of Cpk: Cpk ± z √(1/(9n) + Cpk²/(2(n−1))), Bissell."""
    from statistics import NormalDist

    z = NormalDist().inv_cdf((1 + confidence) / 2)
    half = z * math.sqrt(1 / (9 * count) + cpk**2 / (2 * (count - 1)))
    return cpk - half, cpk + half


def _compute_constants(given: Given) -> Answer:
    size = given.count("size")
    named = constants(size).named(size)
    return Answer(tuple(Result(name, value, "", 4) for name, value in named.items()))


def _compute_individuals(given: Given) -> Answer:
    found = individuals(given.numbers("readings"), given.maybe("d2"))
    places = spread_places(found.sigma, 4)
    ranges = found.ranges
    return Answer(
        (
            Result("mean", found.readings.centre, READING, places, "centre line"),
            Result("lcl", found.readings.lower, READING, places, "lower control limit"),
            Result("ucl", found.readings.upper, READING, places, "upper control limit"),
            Result("mr_bar", ranges.centre, READING, places, "mean moving range"),
            Result(
                "mr_ucl", ranges.upper, READING, places, "upper limit of the ranges"
            ),
            Result("sigma", found.sigma, READING, places, "mean moving range / d2"),
            Result("outside", _listed(found.readings), "", 0, "readings outside"),
        )
    )


def _listed(chart: Chart) -> str:
    return ", ".join(f"no. {place}" for place in chart.outside) or "none"


def _compute_grouped(given: Given) -> Answer:
    groups = [_group(text) for text in given.words("groups")]
    found = grouped(groups)
    charts = (
        ("means, by range", found.means),
        ("ranges", found.ranges),
        ("means, by s", found.means_by_s),
        ("standard deviations", found.deviations),
    )
    fine = spread_places(found.sigma_by_range, 5)
    columns = (
        Column("chart"), Column("centre", "", fine), Column("lower", "", fine),
        Column("upper", "", fine), Column("outside"),
    )  # fmt: skip
    rows = tuple(
        (name, one.centre, one.lower, one.upper, _listed(one)) for name, one in charts
    )
    results = [
        Result("xbarbar", found.means.centre, "", fine, "mean of the means"),
        Result("rbar", found.ranges.centre, "", fine, "mean range"),
        Result("sbar", found.deviations.centre, "", fine, "mean standard deviation"),
        Result("sigma_by_range", found.sigma_by_range, "", fine, "mean range / d2"),
        Result("sigma_by_s", found.sigma_by_s, "", fine, "mean s / c4"),
        Result("xbar_lcl", found.means.lower, "", fine, "lower limit of the means"),
        Result("xbar_ucl", found.means.upper, "", fine, "upper limit of the means"),
        Result("r_lcl", found.ranges.lower, "", fine, "lower limit of the ranges"),
        Result("r_ucl", found.ranges.upper, "", fine, "upper limit of the ranges"),
        Result("s_lcl", found.deviations.lower, "", fine, "lower limit of s"),
        Result("s_ucl", found.deviations.upper, "", fine, "upper limit of s"),
    ]
    if given.has("lower") or given.has("upper"):
        index = capability(
            found.means.centre, found.sigma_by_range,
            given.maybe("lower"), given.maybe("upper"),
        )  # fmt: skip
        results += _indices(index)
    return Answer(tuple(results), tables=(Rows("Control charts", columns, rows),))


def _group(text: str) -> list[float]:
    from logbook.quantity import parse_quantity

    words = text.replace(", ", " ").split()
    return [float(parse_quantity(word, "pcs").value) for word in words]


def _indices(index: Capability) -> list[Result]:
    named = (
        ("cp", index.cp, "width of the limits over 6 σ"),
        ("cpk", index.cpk, "distance to the nearer limit over 3 σ"),
        ("cpu", index.cpu, "to the upper limit"),
        ("cpl", index.cpl, "to the lower limit"),
        ("k", index.off, "how far off centre, 0 to 1"),
    )
    return [
        Result(name, value, "", 2, what) for name, value, what in named
        if value is not None
    ]  # fmt: skip


def _compute_capability(given: Given) -> Answer:
    index = capability(
        given.number("mean"), given.number("sigma"),
        given.maybe("lower"), given.maybe("upper"),
    )  # fmt: skip
    results = _indices(index)
    warnings: tuple[str, ...] = ()
    if given.has("count"):
        count, level = given.count("count"), given.number("confidence")
        if index.cp is not None:
            low, high = cp_interval(index.cp, count, level)
            results.append(Result("cp_low", low, "", 2, f"{level:.0%} interval"))
            results.append(Result("cp_high", high, "", 2, f"{level:.0%} interval"))
        low, high = cpk_interval(index.cpk, count, level)
        results.append(Result("cpk_low", low, "", 2, f"{level:.0%} interval"))
        results.append(Result("cpk_high", high, "", 2, f"{level:.0%} interval"))
    else:
        warnings = ("Say how many readings the spread rests on: the interval is wide.",)
    return Answer(tuple(results), warnings=warnings)


_LOWER = Input(
    "lower", "lower limit", kind=Kind.FIGURE, optional=True,
    also=("lsl", "lower-limit", "spec-low"),
)  # fmt: skip
_UPPER = Input(
    "upper", "upper limit", kind=Kind.FIGURE, optional=True,
    also=("usl", "upper-limit", "spec-high"),
)  # fmt: skip

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
    Sum(
        name="individuals-chart",
        also=("control-chart", "imr", "individuals"),
        title="Individuals chart: is the process settled?",
        inputs=(
            READINGS,
            Input("d2", "divisor of the mean moving range; 1.128379 without",
                  kind=Kind.NUMBER, accept=above(0), optional=True),
        ),
        compute=_compute_individuals,
        formula="mean ± 3 × mean moving range / d2",
        source="NIST/SEMATECH e-Handbook 6.3.2.2",
        how="read",
        caution="With fewer than about 20 readings the limits are rough.",
        example={"readings": "49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, "
                 "52.1"},
        relied_on=False,
    ),
    Sum(
        name="subgroup-chart",
        also=("xbar-chart", "x-bar-r"),
        title="Charts of subgroups: means, ranges and standard deviations",
        inputs=(
            Input("groups", "one subgroup: its readings with blanks between",
                  kind=Kind.TEXT, many=True, also=("subgroups",)),
            _LOWER,
            _UPPER,
        ),
        compute=_compute_grouped,
        formula="mean ± A2 × mean range; D3, D4 × mean range; B3, B4 × mean s",
        source="ASTM E2587; NIST/SEMATECH e-Handbook 6.3.2.1",
        how="read",
        example={"groups": ("74.03 74.002 74.019", "73.995 73.992 74.001",
                            "73.988 74.024 74.021")},
        relied_on=False,
    ),
    Sum(
        name="capability",
        also=("cp", "cpk", "process-capability"),
        title="Capability of a process, with its interval",
        inputs=(
            Input("mean", "mean", kind=Kind.FIGURE),
            Input("sigma", "standard deviation", kind=Kind.FIGURE, accept=above(0),
                  also=("sd", "s", "standard-deviation")),
            _LOWER,
            _UPPER,
            Input("count", "readings it rests on", kind=Kind.COUNT, accept=at_least(2),
                  optional=True, also=("n",)),
            CONFIDENCE,
        ),
        compute=_compute_capability,
        formula="Cp = (U − L)/6σ; Cpk = min(U − mean, mean − L)/3σ; k = off-centre / "
        "half width; interval of Cpk: ± z √(1/9n + Cpk²/2(n−1))",
        source="NIST/SEMATECH e-Handbook 6.1.6",
        how="read",
        caution="An index means something only for a settled process that falls "
        "normally.",
        example={"mean": "16", "sigma": "2", "lower": "8", "upper": "20", "n": "30"},
    ),
)  # fmt: skip
