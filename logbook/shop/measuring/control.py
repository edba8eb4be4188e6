"""Control charts: is a process settled, by single readings or by subgroups."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from logbook.counting import so_many
from logbook.errors import BadInput
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.digits import spread_places
from logbook.shop.given import READING, Given, Input, Kind, above
from logbook.shop.measuring.capability import LOWER, UPPER, capability, indices
from logbook.shop.measuring.control_constants import constants
from logbook.shop.measuring.statistics import mean_of
from logbook.shop.measuring.statistics_inputs import READINGS
from logbook.shop.sums import Sum


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
        raise BadInput(
            f"found {so_many(readings, 'reading')}; accepted: at least three"
        )
    moved = [abs(after - before) for before, after in itertools.pairwise(readings)]
    pair = constants(2)
    mean, mean_range = mean_of(readings), mean_of(moved)
    sigma = mean_range / (d2 or pair.d2)
    top = mean_range * (1 + pair.range_share)
    return Individuals(
        _chart(readings, mean, mean - 3 * sigma, mean + 3 * sigma),
        _chart(moved, mean_range, 0.0, top),
        sigma,
    )


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
    means = [mean_of(group) for group in groups]
    ranges = [max(group) - min(group) for group in groups]
    sds = [_sd(group) for group in groups]
    centre, wide, spread = mean_of(means), mean_of(ranges), mean_of(sds)
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
    mean = mean_of(group)
    return math.sqrt(math.fsum((one - mean) ** 2 for one in group) / (len(group) - 1))


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
        results += indices(index)
    return Answer(tuple(results), tables=(Rows("Control charts", columns, rows),))


def _group(text: str) -> list[float]:
    from logbook.quantity import parse_quantity

    words = text.replace(", ", " ").split()
    return [float(parse_quantity(word, "pcs").value) for word in words]


SUMS: tuple[Sum, ...] = (
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
            LOWER,
            UPPER,
        ),
        compute=_compute_grouped,
        formula="mean ± A2 × mean range; D3, D4 × mean range; B3, B4 × mean s",
        source="ASTM E2587; NIST/SEMATECH e-Handbook 6.3.2.1",
        how="read",
        example={"groups": ("74.03 74.002 74.019", "73.995 73.992 74.001",
                            "73.988 74.024 74.021")},
        relied_on=False,
    ),
)  # fmt: skip
