"""What a chain of dimensions comes to, and the chance of landing, as a sum."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.chains.chain import ACCEPTED, by_formula, read_line
from logbook.shop.chains.evaluation import sampled
from logbook.shop.chains.formula import read_formula
from logbook.shop.chains.stackup import Part, StackUp, stack_up
from logbook.shop.chains.trials import MOST_TRIALS, TRIALS, Trials, try_out
from logbook.shop.given import Given, Input, Kind, between
from logbook.shop.sums import Sum


def _compute(given: Given) -> Answer:
    lines = [read_line(text) for text in given.words("chain")]
    low, high = given.maybe("low"), given.maybe("high")
    if not given.has("formula"):
        return _exact_answer(stack_up(lines), given, low, high)
    formula = read_formula(given.word("formula"))
    lines = [replace(one, nominal=one.nominal * one.direction) for one in lines]
    linear = by_formula(formula, lines)
    if linear:
        return _exact_answer(stack_up(linear[0], linear[1]), given, low, high)
    units = {one.name: "mm" for one in lines}
    used = [one for one in lines if one.name in {str(name) for name in formula.names}]
    drawn = try_out(
        lambda sizes: sampled(formula, sizes, units, "mm"), used, given.count("trials")
    )
    return _trial_answer(drawn, given, low, high)


def _exact_answer(
    found: StackUp, given: Given, low: float | None, high: float | None
) -> Answer:
    level = given.number("coverage")
    ends = found.interval(level)
    results = [
        Result("nominal", found.nominal, "mm", 3, "from the nominal sizes"),
        Result("centred", found.centre, "mm", 3, "from the middles of the limits"),
        Result("worst_low", found.worst_low, "mm", 3, "smallest gap the limits allow"),
        Result("worst_high", found.worst_high, "mm", 3, "largest gap the limits allow"),
        Result("worst_plus_minus", found.worst, "mm", 3, "half the worst case"),
        Result("rss_plus_minus", found.rss, "mm", 3, "root of the sum of squares"),
        Result("rss_low", found.rss_low, "mm", 3, "centred less RSS"),
        Result("rss_high", found.rss_high, "mm", 3, "centred and RSS"),
        Result("sd", found.sd, "mm", 4, "standard deviation of the gap"),
        Result("low_end", ends[0], "mm", 3, f"{level:.0%} of all gaps lie above, "
               "half the rest below"),
        Result("high_end", ends[1], "mm", 3, "and below this"),
    ]  # fmt: skip
    if low is not None or high is not None:
        chance = 100 * found.folded.between(low, high)
        results.append(Result("chance", chance, "%", 2, "of landing within the limits"))
    return Answer(
        tuple(results),
        tables=(_share_table(found.parts),),
        assumptions=(
            "dimensions are independent, those of one set-up add straight",
            (
                "normal: limits are 3 standard deviations from the middle unless k is "
                "given"
            ),
            "exact: the densities folded into one on a fine grid",
        ),
    )


def _share_table(parts: Sequence[Part]) -> Rows:
    columns = (
        Column("dimension"), Column("worst case", "mm", 3),
        Column("standard deviation", "mm", 4), Column("share of the variance", "%", 1),
    )  # fmt: skip
    rows = sorted(
        ((" + ".join(one.names), one.worst, one.sd, 100 * one.share) for one in parts),
        key=lambda row: -row[3],
    )
    return Rows("What carries the doubt", columns, tuple(rows))


def _trial_answer(
    drawn: Trials, given: Given, low: float | None, high: float | None
) -> Answer:
    level = given.number("coverage")
    tail = (1 - level) / 2
    ends = drawn.quantile(tail), drawn.quantile(1 - tail)
    results = [
        Result("mean", drawn.mean.value, "mm", 4, "mean gap", 2 * drawn.mean.error),
        Result("sd", drawn.sd.value, "mm", 4, "standard deviation", 2 * drawn.sd.error),
        Result("low_end", ends[0].value, "mm", 4, "lower end", 2 * ends[0].error),
        Result("high_end", ends[1].value, "mm", 4, "upper end", 2 * ends[1].error),
    ]
    if low is not None or high is not None:
        chance = drawn.between(low, high)
        results.append(
            Result("chance", 100 * chance.value, "%", 2, "of landing within the limits",
                   200 * chance.error)
        )  # fmt: skip
    return Answer(
        tuple(results),
        assumptions=(
            (
                f"the formula is not linear: {len(drawn.sizes)} trials; ± is the error "
                "of drawing at k = 2, not of the gap"
            ),
        ),
    )


_CHAIN = Input(
    "chain",
    f"the dimensions, one after the other: {ACCEPTED}",
    kind=Kind.TEXT,
    many=True,
    also=("dimensions", "contributors"),
)


SUMS: tuple[Sum, ...] = (
    Sum(
        name="stack-up",
        also=("stackup", "tolerance-stack", "chain"),
        title="What a chain of dimensions comes to, and the chance of landing",
        inputs=(
            _CHAIN,
            Input("formula", "the gap by name; without it the signs of the chain hold",
                  kind=Kind.TEXT, optional=True),
            Input("low", "smallest gap wanted", "mm", optional=True,
                  also=("gap-low", "lower")),
            Input("high", "largest gap wanted", "mm", optional=True,
                  also=("gap-high", "upper")),
            Input("coverage", "share of all gaps the interval holds", kind=Kind.NUMBER,
                  accept=between(0, 1), default="0.95", share=True),
            Input("trials", "trials, where the formula is not linear", kind=Kind.COUNT,
                  accept=between(999, MOST_TRIALS + 1), default=str(TRIALS)),
        ),
        compute=_compute,
        formula="worst case Σ|c t|; RSS √Σ(c t)² about the centred nominal; exact by "
        "folding the densities; sampled where not linear",
        source="arithmetic; JCGM 101:2008 for the spread of a sum",
        how="computed",
        caution="Drawn limits are no spread: a process has its own.",
        example={
            "chain": ("bore depth: +40 ±0.1", "spacer: -25 ±0.05 uniform",
                      "ring: -2 ±0.03 triangular", "shoulder: -10 ±0.05"),
            "low": "2.9 mm", "high": "3.1 mm",
        },
    ),
)  # fmt: skip
