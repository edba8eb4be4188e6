"""Chains as typed: `opening: +180 ±1.2 uniform; bar: -179.7 ±0.1`.

A line names a dimension, gives its size with the sign it has in the gap, its
limits, and how it spreads. With a formula the lines carry the names of the
formula instead of signs.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity, quantity
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.chains.evaluation import exact_measure, sampled, sensitivities
from logbook.shop.chains.formula import Formula, read_formula
from logbook.shop.chains.measure import base_unit, describe, in_unit
from logbook.shop.chains.spread import Contributor, Shape
from logbook.shop.chains.stackup import Part, StackUp, stack_up
from logbook.shop.chains.trials import MOST_TRIALS, TRIALS, Trials, try_out
from logbook.shop.given import Given, Input, Kind, between
from logbook.shop.measuring.statistics import decimals
from logbook.shop.sums import Sum

_ACCEPTED = (
    "name: +40 ±0.1 (or +0.1/-0.05) mm, then normal, uniform, triangular or "
    "measured with its readings, k 2, setup NAME"
)
_FIGURE = r"[0-9]+(?:[.,][0-9]+)?(?:\s+[0-9]+/[0-9]+|/[0-9]+)?|[.,][0-9]+"
_UNIT = r"mm|cm|in|\"|thou|µm|um|m\b|ft"
_LINE = re.compile(
    rf"""(?:(?P<name>[^:=]+)[:=]\s*
      |(?P<bare>[^:=±\d+−-][^:=±]*?)\s+(?=[-+−]?\s*\.?\d)
      |(?=[-+−]?\s*\.?\d))
    (?P<sign>[-+−])?\s*(?P<size>{_FIGURE})?\s*(?P<unit>{_UNIT})?\s*
    (?:±\s*(?P<both>{_FIGURE})\s*(?P<unit2>{_UNIT})?
      |\+\s*(?P<plus>{_FIGURE})\s*/?\s*[-−]\s*(?P<minus>{_FIGURE})\s*(?P<unit3>{_UNIT})?
    )?\s*(?P<rest>.*)""",
    re.VERBOSE,
)


def read_line(text: str) -> Contributor:
    """Read one dimension of a chain; lengths in mm.

    Raises:
        BadInput: the line cannot be read; it is shown with what is accepted.
    """
    found = _LINE.fullmatch(text.strip().replace("+/-", "±"))
    if not found:
        raise BadInput(f"“{text[:60]}” is no dimension; accepted: {_ACCEPTED}")
    unit = found["unit"] or found["unit2"] or found["unit3"] or "mm"
    words = _words(found["rest"], unit, text)
    if not found["size"] and not words.get("readings"):
        raise BadInput(f"“{text[:60]}” has no size; accepted: {_ACCEPTED}")
    size = _length(found["size"], unit) if found["size"] else 0.0
    both = found["both"]
    return Contributor(
        (found["name"] or found["bare"] or text).strip(),
        size,
        _length(both or found["plus"] or "0", found["unit2"] or found["unit3"] or unit),
        _length(
            both or found["minus"] or "0", found["unit2"] or found["unit3"] or unit
        ),
        -1.0 if found["sign"] in {"-", "−"} else 1.0,
        **words,
    )


def _length(text: str, unit: str) -> float:
    return float(parse_quantity(text, unit).to("mm"))


def _words(rest: str, unit: str, line: str) -> dict[str, Any]:
    """Read what follows the limits: shape, k, set-up, readings."""
    found: dict[str, Any] = {}
    words = rest.split()
    while words:
        word = words.pop(0).lower()
        if word in tuple(Shape):
            found["shape"] = Shape(word)
            if word == Shape.MEASURED:
                found["readings"] = tuple(_length(one, unit) for one in _taken(words))
        elif word == "k" and words:
            found["coverage"] = float(parse_quantity(words.pop(0), "pcs").value)
        elif word == "setup" and words:
            found["setup"] = words.pop(0)
        else:
            raise BadInput(f"“{line[:60]}”: found “{word}”; accepted: {_ACCEPTED}")
    return found


def _taken(words: list[str]) -> list[str]:
    """Take the leading figures off a list of words."""
    taken = []
    while words and re.fullmatch(_FIGURE, words[0]):
        taken.append(words.pop(0))
    return taken


def by_formula(
    formula: Formula, contributors: Sequence[Contributor], unit: str = "mm"
) -> tuple[list[Contributor], float] | None:
    """Give the chain a formula stands for, and its constant, if it is linear.

    Contributors are lengths in mm under the names of the formula; without one
    for a name the formula is refused. Of a formula that is not linear there is
    no chain: None.

    Raises:
        BadInput: names without a value, units that do not fit, or a division by
            zero.
    """
    values = nominal_values(contributors)
    found = sensitivities(formula, values, unit)
    if not found.linear:
        return None
    chain = [
        replace(one, direction=float(found.slopes[one.name]))
        for one in contributors
        if one.name in found.slopes
    ]
    moved = sum(
        (found.slopes[name] * values[name].value for name in found.slopes), Fraction(0)
    )
    return chain, float(found.value - moved)


def nominal_values(contributors: Sequence[Contributor]) -> Mapping[str, Quantity]:
    """Give the nominal sizes as quantities in mm, by name."""
    return {
        one.name: quantity(Fraction(repr(one.stated)), "mm") for one in contributors
    }


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


def _compute_formula(given: Given) -> Answer:
    formula = read_formula(given.word("formula"))
    values: dict[str, Quantity] = {}
    for name, value in (_value(text) for text in given.words("values")):
        if name in values:
            raise BadInput(f"{name} is given twice; accepted: one value for each name")
        values[name] = value
    unit = given.word("unit")
    if not unit:
        exponents = exact_measure(formula, values).exponents
        unit = base_unit(exponents)
        if exponents and not unit:
            raise BadInput(
                f"the formula is a {describe(exponents)}; accepted: a unit for it"
            )
    found = sensitivities(formula, values, unit)
    measure = exact_measure(formula, values)
    places = decimals(found.value)
    columns = (Column("name"), Column("slope", "", 6), Column("per"))
    rows = tuple(
        (name, float(slope), values[name].unit) for name, slope in found.slopes.items()
    )
    return Answer(
        (
            Result(
                "value", float(in_unit(measure, unit)), unit, places, "what it comes to"
            ),
            Result("exact", str(found.value), "", 0, f"as a fraction of {unit or '1'}"),
            Result("linear", found.linear, "", 0, "whether the slopes hold everywhere"),
        ),
        tables=(Rows("How much each name moves it", columns, rows),) if rows else (),
    )


def _value(text: str) -> tuple[str, Quantity]:
    name, sign, value = text.partition("=")
    if not sign:
        raise BadInput(f"“{text[:40]}” names no value; accepted: part.name = 178.60 mm")
    return name.strip(), parse_quantity(value, "mm")


_CHAIN = Input(
    "chain",
    f"the dimensions, one after the other: {_ACCEPTED}",
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
    Sum(
        name="formula",
        also=("work-out", "expression"),
        title="A formula over named dimensions, exactly, with its slopes",
        inputs=(
            Input("formula", "as base.opening - bar.length", kind=Kind.TEXT),
            Input("values", "value of each name, as bar.length = 178.3 mm",
                  kind=Kind.TEXT, many=True, optional=True, also=("value", "names")),
            Input("unit", "unit of the result; the base unit without one",
                  kind=Kind.TEXT, optional=True),
        ),
        compute=_compute_formula,
        formula="+ − × ÷, min, max, abs, parentheses; units are checked",
        source="arithmetic in exact fractions",
        how="computed",
        example={"formula": "min(base@left.opening, base@right.opening) - bar.length",
                 "values": ("base@left.opening = 178.60 mm",
                            "base@right.opening = 178.68 mm", "bar.length = 178.3 mm")},
        relied_on=False,
    ),
)  # fmt: skip
