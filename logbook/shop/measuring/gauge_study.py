"""Gauge studies as a sum: how much of a spread is the gauge's and the hand's."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from enum import StrEnum

from logbook.errors import BadInput
from logbook.quantity import parse_quantity
from logbook.shop.answers import Answer, Cell, Column, Result, Rows
from logbook.shop.digits import spread_places
from logbook.shop.given import Given, Input, Kind, above, between
from logbook.shop.measuring.gauge_variance import (
    Anova,
    Runs,
    Study,
    by_anova,
    by_ranges,
    shape,
)
from logbook.shop.sums import Sum

_GOOD, _USABLE = 10, 30
"""Percent of the study's spread below which a gauge is good, and is usable."""


class Method(StrEnum):
    """How the study is worked out."""

    ANOVA = "anova"
    RANGES = "average and range"


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
