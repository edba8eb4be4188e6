"""What every sum of a folded part asks, and the bends made of it.

One typed figure stands for all bends. The allowance is by a factor, a rule, or as
given; what a rule leaves in doubt is told with it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from logbook.errors import BadInput
from logbook.shop.answers import Column, Rows
from logbook.shop.bending.bend_inputs import THICKNESS, bend_angle_of
from logbook.shop.bending.bends import LEGS_ARE, RULES, Bend, allowance_by_rule
from logbook.shop.bending.neutral import (
    FAA_RADIUS,
    FAA_THICKNESS,
    TEMPERS,
    din_factor,
    handbook_coefficient,
)
from logbook.shop.given import POSITIVE, Given, Input, Kind, at_least, between, in_words

FACTOR_INPUTS = (
    Input(
        "neutral_factor",
        "neutral factor of this sheet and tool, best from a coupon",
        kind=Kind.NUMBER,
        optional=True,
        also=("k", "k_factor", "neutral_k"),
    ),
    Input(
        "rule",
        "rule for the allowance where no neutral factor is given",
        kind=Kind.CHOICE,
        choices=RULES[1:],
        default="DIN 6935",
    ),
    Input(
        "temper",
        "for the handbook rule: soft, half-hard or hard (see neutral-factor)",
        kind=Kind.CHOICE,
        choices=TEMPERS,
        default="half-hard",
    ),
    Input(
        "allowance",
        "bend allowance of each bend, instead of a factor",
        "mm",
        accept=POSITIVE,
        optional=True,
        many=True,
        also=("bend_allowance", "ba"),
    ),
)


def one_bend(given: Given) -> Bend:
    """Make the bend of a sum that asks for one only.

    Raises:
        BadInput: both angles are given, several allowances, or a rule out of range.
    """
    typed = given.number("allowance") if given.has("allowance") else None
    angle, radius = bend_angle_of(given), given.number("radius")
    return _bend(given, angle, radius, typed)


def _bend(given: Given, angle: float, radius: float, typed: float | None) -> Bend:
    """Make a bend by the allowance that was typed, else by the rule that holds."""
    t = given.number("thickness")
    if typed is None:
        rule, figure = _rule_and_figure(given, radius, t)
        typed = allowance_by_rule(rule, angle, radius, t, figure)
    return Bend(angle, radius, t, typed)


def _rule_and_figure(given: Given, radius: float, t: float) -> tuple[str, float]:
    """Give the rule that holds for these inputs, and its figure."""
    if (factor := given.maybe("neutral_factor")) is not None:
        return "neutral factor", factor
    rule = given.word("rule")
    if rule == "DIN 6935":
        return rule, din_factor(radius, t) / 2
    if rule == "handbook":
        return rule, handbook_coefficient(given.word("temper"))
    return rule, FAA_THICKNESS / FAA_RADIUS


def each_of(given: Given, name: str, count: int, default: float) -> list[float]:
    """Give one figure per bend, one typed figure standing for all.

    Raises:
        BadInput: the number typed is neither one nor the number of bends.
    """
    values = given.numbers(name) or [default]
    if len(values) == 1:
        return values * count
    if len(values) != count:
        raise BadInput(
            f"{in_words(name)}: found {len(values)} for {count} bends; accepted: one "
            "for all or one for each"
        )
    return values


RULE_DOUBT = 0.07
"""Expanded uncertainty (k = 2) of a neutral factor taken from a rule: published
rules for one bend range over about 0.12; the half of that, taken as rectangular,
gives 2 x 0.06 / sqrt 3."""


def by_rule(given: Given) -> bool:
    """Tell whether the allowances rest on a rule, not on a coupon or a figure."""
    return not given.has("allowance") and not given.has("neutral_factor")


def allowance_doubt(given: Given, bends: Sequence[Bend]) -> tuple[float, ...]:
    """Give the expanded uncertainty of each allowance, 0 where a figure was given."""
    share = RULE_DOUBT if by_rule(given) else 0.0
    return tuple(math.radians(each.angle) * each.thickness * share for each in bends)


def bends_of(given: Given) -> list[Bend]:
    """Make the bends of a part from the inputs that several sums share.

    Raises:
        BadInput: counts that do not belong together, or a rule out of range.
    """
    count = len(given.numbers("legs")) - 1
    if count < 1:
        raise BadInput("legs: found one; accepted: two or more, with a bend between")
    angles, radii = _angles(given, count), each_of(given, "radius", count, 0.0)
    allowances: Sequence[float | None] = [None] * count
    if given.has("allowance"):
        allowances = each_of(given, "allowance", count, 0.0)
    return [
        _bend(given, angle, radius, typed)
        for angle, radius, typed in zip(angles, radii, allowances, strict=True)
    ]


def _angles(given: Given, count: int) -> list[float]:
    if given.has("included_angles") and given.has("bend_angles"):
        raise BadInput(
            "bend angles and included angles are both given; accepted: one of the two"
        )
    if given.has("included_angles"):
        return [180 - each for each in each_of(given, "included_angles", count, 90.0)]
    return each_of(given, "bend_angles", count, 90.0)


def rule_said(given: Given) -> str:
    """Say which rule the allowances rest on."""
    if given.has("allowance"):
        return "bend allowance as given"
    if given.has("neutral_factor"):
        return f"neutral factor {given.typed('neutral_factor')} as given"
    return (
        f"bend allowance by {given.word('rule')}, not by a coupon of this sheet: its "
        f"neutral factor is taken as good to ±{RULE_DOUBT:g}, alike at every bend"
    )


BENDING = ("sheet edges", "brake pinch")


PART_INPUTS = (
    Input(
        "legs",
        "sizes of the legs in order, one more than bends",
        "mm",
        accept=POSITIVE,
        many=True,
        also=("leg", "flanges", "mold_lines", "outside_dims"),
    ),
    Input(
        "bend_angles",
        "how far the sheet is turned at each bend, one for all or one each; 90° "
        "where neither angle is given",
        "°",
        accept=between(0, 180),
        many=True,
        optional=True,
        also=("bend_angle", "angle", "angles"),
    ),
    Input(
        "included_angles",
        "angle between the flanges, instead of the bend angles",
        "°",
        accept=between(0, 180),
        many=True,
        optional=True,
        also=("included_angle",),
    ),
    Input(
        "radius",
        "inside bend radius, one for all or one for each bend",
        "mm",
        accept=at_least(0),
        many=True,
        also=("r", "radii", "inside_radius", "bend_radius"),
    ),
    THICKNESS,
    *FACTOR_INPUTS,
    Input(
        "legs_are",
        "what the legs are measured to",
        kind=Kind.CHOICE,
        choices=LEGS_ARE,
        default=LEGS_ARE[0],
    ),
)


def bend_rows(bends: Sequence[Bend]) -> Rows:
    """Give a table of the bends with both angles."""
    return Rows(
        "bends",
        (
            Column("bend"),
            Column("bend angle", "°", 1),
            Column("included angle", "°", 1),
            Column("inside radius", "mm", 2),
            Column("allowance", "mm", 2),
            Column("setback", "mm", 2),
            Column("deduction", "mm", 2),
        ),
        tuple(
            (
                number + 1,
                each.angle,
                180 - each.angle,
                each.radius,
                each.allowance,
                each.setback,
                each.deduction,
            )
            for number, each in enumerate(bends)
        ),
    )
