"""The neutral factor from a coupon that was bent and measured."""

from __future__ import annotations

import math

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
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
    coupon_deduction,
    factor_from_allowance,
    factor_warnings,
    setback_factor,
)
from logbook.shop.given import POSITIVE, Given, Input, above
from logbook.shop.sums import Sum


def _coupon(given: Given) -> Answer:
    t, r, a = given.number("thickness"), given.number("radius"), bend_angle_of(given)
    setback = setback_factor(a) * (r + t)
    deduction = given.maybe("deduction")
    legs, blank = given.numbers("legs"), given.maybe("blank")
    if deduction is None:
        if len(legs) < 2 or blank is None:
            raise BadInput(
                "legs and blank: the coupon needs two legs or more and the blank it "
                "was bent from; accepted: these, or its deduction"
            )
        deduction = coupon_deduction(legs, blank)
    allowance = 2 * setback - deduction
    factor = factor_from_allowance(allowance, a, r, t)
    spread, assumed = _reading_spread(given, len(legs))
    per_factor = math.radians(a) * t
    return Answer(
        (
            Result(
                "neutral_factor", factor, "", 4, "of this bend", spread / per_factor
            ),
            Result("allowance", allowance, "mm", 3, "of each bend", spread),
            Result("deduction", deduction, "mm", 3, "of each bend", spread),
            Result("setback", setback, "mm", 3, "outside"),
            *factor_results(factor, a)[1:],
            *angle_results(a),
        ),
        assumptions=(
            "legs are measured to the corner where the outside faces would meet",
            *assumed,
        ),
        warnings=(*factor_warnings(factor), *_doubt(spread / per_factor)),
        alarms=factor_warnings(factor),
    )


def _reading_spread(given: Given, legs: int) -> tuple[float, tuple[str, ...]]:
    """Give the expanded uncertainty of the deduction from the readings alone."""
    typed = [
        value.uncertainty
        for name in ("legs", "blank", "deduction")
        for value in given.values[name]
    ]
    if any(typed):
        return 0.0, ()
    reading = given.number("reading_uncertainty")
    if legs < 2:
        return reading, (f"the deduction is good to ±{reading:g} mm",)
    spread = reading * math.sqrt(legs + 1) / (legs - 1)
    return spread, (f"each leg and the blank are read to ±{reading:g} mm",)


def _doubt(spread: float) -> tuple[str, ...]:
    if spread < 0.03:
        return ()
    return (
        (
            f"the readings leave the factor uncertain by {spread:.2f}: use longer "
            "rows of bends or several coupons, and never more digits than that"
        ),
    )


SUMS = (
    Sum(
        name="bend-coupon",
        title="Neutral factor from a bent and measured coupon",
        inputs=(
            Input(
                "legs",
                "legs to the outside corner; more than two for several equal bends",
                "mm",
                accept=POSITIVE,
                many=True,
                optional=True,
                also=("leg",),
            ),
            Input(
                "blank", "length before bending", "mm", accept=POSITIVE, optional=True
            ),
            Input(
                "deduction",
                "bend deduction, instead of legs and blank",
                "mm",
                optional=True,
                also=("bend_deduction",),
            ),
            THICKNESS,
            RADIUS,
            BEND_ANGLE,
            INCLUDED_ANGLE,
            Input(
                "reading_uncertainty",
                "± of each length, where none is typed with it",
                "mm",
                accept=above(0, 5),
                default="0.04 mm",
            ),
        ),
        compute=_coupon,
        formula="deduction = (sum of legs - blank) / bends; allowance = 2 setback - "
        "deduction; K = (allowance / rad(A) - R) / T; its uncertainty is that of the "
        "deduction / (rad(A) T)",
        source="geometry of the neutral line; JCGM 100:2008 5.1.2 for the uncertainty",
        how="computed",
        caution="One coupon is not a material constant: radius, tool and side clamped "
        "belong to it.",
        example={
            "legs": ("41.35 mm", "62.00 mm"),
            "blank": "100.00 mm",
            "thickness": "2.0 mm",
            "radius": "2 mm",
            "bend_angle": "90°",
        },
        also=("neutral-factor-from-coupon", "coupon", "k-from-coupon"),
    ),
)
