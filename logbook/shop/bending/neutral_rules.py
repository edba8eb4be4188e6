"""The neutral factor by published rules, and a bend by DIN 6935, as sums."""

from __future__ import annotations

import math
from collections.abc import Sequence

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.bending.bend_inputs import (
    BEND_ANGLE,
    INCLUDED_ANGLE,
    RADIUS,
    THICKNESS,
    angle_results,
    bend_angle_of,
    factor_results,
)
from logbook.shop.bending.neutral import (
    FAA_RADIUS,
    FAA_THICKNESS,
    TEMPERS,
    chart_factor,
    din_allowance,
    din_factor,
    handbook_coefficient,
)
from logbook.shop.given import POSITIVE, Given, Input, Kind
from logbook.shop.sums import Sum
from logbook.shop.tables import table

Line = tuple[str, float, str]
"""A rule, its neutral factor, and what that figure is."""


def _neutral(given: Given) -> Answer:
    t, a = given.number("thickness"), bend_angle_of(given)
    lines, misses = _by_rules(given)
    chosen = _chosen(given.word("rule"), lines, misses)
    values = [factor for _, factor, _ in lines]
    low, high = min(values), max(values)
    spread = math.radians(a) * t * (high - low)
    return Answer(
        (
            *factor_results(chosen, a),
            *angle_results(a),
            Result("least", low, "", 3, "lowest of the rules below"),
            Result("greatest", high, "", 3, "highest of them"),
            Result("doubt_of_flat", spread, "mm", 2, "what their spread does per bend"),
        ),
        tables=(
            Rows(
                "neutral factor by rule",
                (Column("rule"), Column("neutral factor", "", 3), Column("meaning")),
                tuple(lines),
            ),
        ),
        warnings=tuple(misses),
        sources=_rule_sources(given.word("material"), given.word("temper")),
    )


def _by_rules(given: Given) -> tuple[list[Line], list[str]]:
    """Give what every rule says that knows this bend, and why others do not."""
    t, r = given.number("thickness"), given.number("radius")
    lines: list[Line] = []
    misses: list[str] = []
    try:
        lines.append(("DIN 6935", din_factor(r, t) / 2, "for steel, from r/s"))
    except BadInput as error:
        misses.append(str(error))
    lines.append(("FAA", FAA_THICKNESS / FAA_RADIUS, "constant, all sheet"))
    material = given.word("material")
    if material in {"aluminium", "cold-rolled steel"}:
        try:
            lines.append(
                ("chart", chart_factor(material, t, r), "unverified shop chart")
            )
        except BadInput as error:
            misses.append(str(error))
    if temper := given.word("temper"):
        c = handbook_coefficient(temper)
        lines.append(("handbook", c / (math.pi / 2), f"{temper}, c = {c:g}"))
    return lines, misses


def _chosen(method: str, lines: Sequence[Line], misses: Sequence[str]) -> float:
    for name, factor, _ in lines:
        if name == method:
            return factor
    raise BadInput(
        "; ".join(misses)
        or f"rule: found {method}, which needs a material or temper it knows; "
        f"accepted: {', '.join(name for name, _, _ in lines)}"
    )


def _rule_sources(material: str, temper: str) -> tuple[str, ...]:
    cited = []
    if material:
        cited.append(table("bends", "neutral_chart").cited)
    if temper:
        cited.append(table("bends", "handbook").cited)
    return tuple(cited)


def _din(given: Given) -> Answer:
    t, r = given.number("thickness"), given.number("radius")
    a = bend_angle_of(given)
    k = din_factor(r, t)
    v = din_allowance(a, r, t, k)
    legs = given.numbers("legs")
    results = [
        Result("din_factor", k, "", 4, "k of DIN 6935"),
        Result("compensation", v, "mm", 3, "v, added for each bend; mostly negative"),
        *factor_results(k / 2, a)[::2],
        *angle_results(a),
    ]
    if legs:
        flat = sum(legs) + v * (len(legs) - 1)
        results.insert(0, Result("flat_length", flat, "mm", 2, "blank"))
    return Answer(
        tuple(results),
        assumptions=(
            (
                "legs are outside sizes: to the outside corner up to a bend angle of "
                "90°, to the outermost face beyond"
            ),
            *(("v is neglected for included angles above 165°",) if a < 15 else ()),
        ),
    )


RULES = ("DIN 6935", "FAA", "chart", "handbook")


SUMS = (
    Sum(
        name="neutral-factor",
        title="Neutral factor of a bend, by every rule that applies",
        inputs=(
            THICKNESS,
            RADIUS,
            BEND_ANGLE,
            INCLUDED_ANGLE,
            Input(
                "rule",
                "the rule whose figure is taken",
                kind=Kind.CHOICE,
                choices=RULES,
                default="DIN 6935",
            ),
            Input(
                "material",
                "for the shop chart",
                kind=Kind.CHOICE,
                choices=("aluminium", "cold-rolled steel", "other"),
                optional=True,
            ),
            Input(
                "temper",
                "for the handbook rule: soft brass and copper; half-hard copper and "
                "brass, soft steel, aluminium; hard copper, bronze, spring steel",
                kind=Kind.CHOICE,
                choices=TEMPERS,
                optional=True,
            ),
        ),
        compute=_neutral,
        formula="DIN 6935: (0.65 + 0.5 lg(r/s)) / 2, 0.5 above r/s = 5; FAA: "
        "0.0078 / 0.01743; handbook: c / 1.5708",
        source="DIN 6935; FAA-H-8083-31 volume 1 chapter 4",
        how="read",
        caution="Rules differ by more than a caliper's uncertainty: bend a coupon of "
        "the same sheet on the same tool before the part.",
        example={"thickness": "2 mm", "radius": "3 mm", "material": "aluminium"},
    ),
    Sum(
        name="bend-din",
        title="Bend by DIN 6935: factor k, compensation v, flat length",
        inputs=(
            THICKNESS,
            RADIUS,
            BEND_ANGLE,
            INCLUDED_ANGLE,
            Input(
                "legs",
                "outside sizes of the legs",
                "mm",
                accept=POSITIVE,
                many=True,
                optional=True,
            ),
        ),
        compute=_din,
        formula="L = sum of legs + n v; v = π (180 - β)/180 (r + s k/2) - 2 (r + s), "
        "the last term times tan((180 - β)/2) for β from 90° to 165°, v = 0 above; "
        "k = 0.65 + 0.5 lg(r/s), 1 above r/s = 5; β is the included angle",
        source="DIN 6935, cold bending of flat steel",
        how="read",
        caution="k is made for steel; other metals want a coupon.",
        example={
            "thickness": "5 mm",
            "radius": "6 mm",
            "included_angle": "60°",
            "legs": ("16 mm", "21 mm"),
        },
        also=("bend-din6935", "din-6935"),
    ),
)
