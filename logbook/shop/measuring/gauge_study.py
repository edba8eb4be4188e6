"""Gauge studies: how much of a spread is the gauge's and the hand's, not the part's.

Repeatability is what one hand scatters on one part, reproducibility what hands
differ by. By analysis of variance the hands' taste for single parts is told
apart; by averages and ranges it is not, but a pencil is enough. Both follow the
AIAG reference manual on measurement systems analysis, whose worked study is a
check; the manual itself was not read.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from logbook.errors import BadInput
from logbook.quantity import parse_quantity
from logbook.shop.answers import Answer, Cell, Column, Result, Rows
from logbook.shop.given import Given, Input, Kind, above, between
from logbook.shop.measuring.control import constants
from logbook.shop.measuring.statistics import spread_places
from logbook.shop.sums import Sum

Runs = Mapping[str, Sequence[Sequence[float]]]
"""Readings by operator, then by trial, then by part in a fixed order."""

_MANY_RANGES = 15
"""From more ranges than this d2 itself is taken, as the manual's tables do."""
_GOOD, _USABLE = 10, 30
"""Percent of the study's spread below which a gauge is good, and is usable."""


class Method(StrEnum):
    """How the study is worked out."""

    ANOVA = "anova"
    RANGES = "average and range"


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
    cells = [
        [_mean([one[part] for one in runs[who]]) for part in range(n)] for who in runs
    ]
    hands = [_mean(row) for row in cells]
    parts = [_mean([row[part] for row in cells]) for part in range(n)]
    all_ = _mean(hands)
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
    repeat = _mean(ranges) / _d2_star(r, len(ranges))
    if not repeat:
        raise _alike()
    hands = [
        _mean([each for one in passes for each in one]) for passes in runs.values()
    ]
    between_hands = (_range(hands) / _d2_star(k, 1)) ** 2 - repeat**2 / (n * r)
    parts = [
        _mean([one[part] for passes in runs.values() for one in passes])
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


def _mean(values: Sequence[float]) -> float:
    return math.fsum(values) / len(values)


def _range(values: Sequence[float]) -> float:
    return max(values) - min(values)


def figures_of(text: str) -> list[float]:
    """Read figures with blanks between."""
    return [float(parse_quantity(word, "pcs").value) for word in text.split()]


def labelled(texts: Sequence[str], accepted: str) -> Iterator[tuple[str, list[float]]]:
    """Read lines such as `A: 10.02 9.98`: the label, and its figures.

    Raises:
        BadInput: a line without a label, or without figures.
    """
    for text in texts:
        label, colon, figures = text.partition(":")
        if not colon or not label.strip() or not figures.split():
            raise BadInput(f"“{text[:40]}” is no run; accepted: {accepted}")
        yield label.strip(), figures_of(figures)


def _runs(given: Given) -> Runs:
    runs: dict[str, list[list[float]]] = {}
    accepted = "operator: his readings of all parts in order, as A: 10.02 9.98 10.05"
    for who, figures in labelled(given.words("runs"), accepted):
        runs.setdefault(who, []).append(figures)
    return runs


def _compute_study(given: Given) -> Answer:
    runs = _runs(given)
    method = Method(given.word("method"))
    if method is Method.ANOVA:
        found = by_anova(runs, given.number("alpha"))
    else:
        found = by_ranges(runs)
    sizes = dict(zip(("operators", "parts", "trials"), shape(runs), strict=True))
    results = [*_study_results(found), *_anova_results(found.anova)]
    share = 100 * math.sqrt(found.gauge / found.total)
    if (tolerance := given.maybe("tolerance")) is not None:
        of_limits = 100 * 6 * math.sqrt(found.gauge) / tolerance
        results.append(
            Result("percent_of_tolerance", of_limits, "%", 0, "6 sd over its width")
        )
        share = max(share, of_limits)
    return Answer(
        (Result("verdict", _verdict(share), "", 0, "rule of thumb"), *results),
        tables=(_study_table(found),),
        assumptions=(
            ", ".join(f"{count} {name}" for name, count in sizes.items()),
            "operators and parts are taken as drawn at random from many",
        ),
        warnings=_study_warnings(found, sizes["parts"]),
    )


def _verdict(share: float) -> str:
    if share < _GOOD:
        return "good"
    return "usable for some uses" if share <= _USABLE else "not good enough"


def _study_results(found: Study) -> list[Result]:
    gauge, total = math.sqrt(found.gauge), math.sqrt(found.total)
    named = (
        ("repeatability", found.repeatability, "sd of one hand on one part"),
        ("reproducibility", found.reproducibility, "sd between hands"),
        ("gauge", found.gauge, "sd of gauge and hands"),
        ("part", found.part, "sd of the parts"),
        ("total", found.total, "sd of all"),
    )
    places = spread_places(gauge)
    return [
        *(
            Result(f"{name}_sd", math.sqrt(variance), "", places, said)
            for name, variance, said in named
        ),
        Result("percent_of_study", 100 * gauge / total, "%", 0, "gauge sd of total sd"),
        Result(
            "percent_contribution", 100 * found.gauge / found.total, "%", 1,
            "gauge variance of total variance",
        ),
        Result("categories", found.categories, "", 0, "sizes it tells apart; want 5"),
        *(
            Result(f"{name}_variance", variance, "", 2 * places, "as in the table")
            for name, variance in (
                ("repeatability", found.repeatability), ("operator", found.operator),
                ("interaction", found.interaction), ("part", found.part),
            )
        ),
    ]  # fmt: skip


def _anova_results(found: Anova | None) -> list[Result]:
    if found is None:
        return []
    places = spread_places(found.repeats) + 1
    squares = (
        ("operators", found.operators), ("parts", found.parts),
        ("interaction", found.interaction), ("repeats", found.repeats),
        ("total", found.total),
    )  # fmt: skip
    return [
        *(
            Result(f"ss_{name}", one, "", places, "sum of squares")
            for name, one in squares
        ),
        Result("f_interaction", found.f_interaction, "", 3, "of operator and part"),
        Result("p_interaction", found.p_interaction, "", 3, "its chance by luck"),
        Result("pooled", found.pooled, "", 0, "interaction counted with the repeats"),
    ]


def _study_table(found: Study) -> Rows:
    rows = (
        ("gauge and hands", found.gauge), ("repeatability", found.repeatability),
        ("reproducibility", found.reproducibility), ("operators", found.operator),
        ("operator and part", found.interaction), ("parts", found.part),
        ("total", found.total),
    )  # fmt: skip
    places = spread_places(math.sqrt(found.gauge))
    columns = (
        Column("source"), Column("variance", "", 2 * places), Column("sd", "", places),
        Column("share of variance", "%", 1), Column("share of spread", "%", 1),
    )  # fmt: skip
    lines: list[tuple[Cell, ...]] = [
        (name, variance, math.sqrt(variance), 100 * variance / found.total,
         100 * math.sqrt(variance / found.total))
        for name, variance in rows
    ]  # fmt: skip
    return Rows(
        "where the spread comes from; shares of spread do not add up", columns,
        tuple(lines),
    )  # fmt: skip


def _study_warnings(found: Study, parts: int) -> tuple[str, ...]:
    said = []
    if found.categories < 5:
        said.append("It tells fewer than five sizes apart: too coarse for control.")
    if parts < 5:
        said.append("Fewer than five parts say little about the spread of parts.")
    return tuple(said)


SUMS: tuple[Sum, ...] = (
    Sum(
        name="gauge-rr",
        also=("gauge-r-and-r", "grr", "gage-rr", "gauge-study", "repeatability"),
        title="Is the gauge good enough? Repeatability and reproducibility",
        inputs=(
            Input(
                "runs",
                "one pass of one operator over all parts, in order; A: 10.02 "
                "9.98 10.05, and again for each trial and operator",
                kind=Kind.TEXT,
                many=True,
                also=("readings",),
            ),
            Input(
                "method",
                "analysis of variance, or averages and ranges",
                kind=Kind.CHOICE,
                choices=tuple(Method),
                default=Method.ANOVA.value,
                words={"ranges": Method.RANGES, "range": Method.RANGES},
            ),
            Input(
                "alpha",
                "interaction is pooled where its chance by luck is above",
                kind=Kind.NUMBER,
                accept=between(0, 1),
                default="0.25",
                share=True,
            ),
            Input(
                "tolerance",
                "width between the limits of the part, same unit",
                kind=Kind.NUMBER,
                accept=above(0),
                optional=True,
            ),
        ),
        compute=_compute_study,
        formula="anova: σ² of repeats = MSE; of hands (MSO − MSE)/(n r); of parts (MSP "
        "− MSE)/(k r); average and range: R̄/d2, range of means/d2*; categories √2 "
        "σ_part/σ_gauge",
        source="AIAG, Measurement Systems Analysis, 4th edition, chapter III B; below "
        "10 % good, to 30 % usable",
        how="memory",
        caution="Measure the parts in a mixed order, without looking at the last "
        "figure.",
        example={
            "runs": (
                "A: 10.02 9.98 10.05 9.95 10.00",
                "A: 10.03 9.97 10.05 9.96 10.01",
                "B: 10.01 9.98 10.04 9.95 9.99",
                "B: 10.02 9.97 10.04 9.94 10.00",
            )
        },
    ),
)
