"""The neutral factor: where in the thickness a bent sheet keeps its length.

Three published figures are called "K-factor". Here they are the *neutral
factor* (neutral line from the inside face, in thicknesses, 0 to 0.5), the *DIN
factor* k = 2 x neutral factor (DIN 6935), and the *setback factor* tan(A/2)
(FAA AC 43.13-1B). Lengths in mm, angles are bend angles in degrees: how far
the sheet is turned, 180 less the included angle.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.given import POSITIVE, Given, Input, Kind, above, at_least, between
from logbook.shop.sums import Sum
from logbook.shop.tables import Table, table

FAA_RADIUS, FAA_THICKNESS, NAVY_RADIUS = 0.01743, 0.0078, 0.0173
"""Allowance per degree = radius x 0.01743 + thickness x 0.0078 (FAA-H-8083-31);
one Navy text prints 0.0173."""


def setback_factor(bend_angle: float) -> float:
    """Give tan(A/2), which AC 43.13-1B table 4-7 calls a K-factor."""
    return math.tan(math.radians(bend_angle) / 2)


def din_factor(radius: float, thickness: float) -> float:
    """Give k of DIN 6935: 0.65 + 0.5 lg(r/s), 1 above r/s = 5.

    Raises:
        BadInput: the radius is below about 0.05 of the thickness, where the
            formula gives no neutral line.
    """
    ratio = radius / thickness
    if ratio > 5:
        return 1.0
    k = 0.65 + 0.5 * math.log10(ratio) if ratio > 0 else -1.0
    if k < 0:
        raise BadInput(
            f"radius: found {radius:g} mm in {thickness:g} mm sheet; accepted for "
            f"DIN 6935: at least {10**-1.3 * thickness:.3g} mm, below that its "
            "formula gives no neutral line"
        )
    return k


def factor_from_allowance(
    allowance: float, bend_angle: float, radius: float, thickness: float
) -> float:
    """Give the neutral factor that a bend allowance stands for."""
    return (allowance / math.radians(bend_angle) - radius) / thickness


def coupon_deduction(legs: Sequence[float], blank: float) -> float:
    """Give the deduction of each bend of a measured coupon of equal bends."""
    return (sum(legs) - blank) / (len(legs) - 1)


def factor_warnings(factor: float) -> tuple[str, ...]:
    """Say when a neutral factor is outside what a bend can have."""
    if 0 <= factor <= 0.5:
        return ()
    return (
        (
            f"a neutral factor of {factor:.3f} is outside 0 to 0.5: suspect the legs, "
            "the radius or the thickness; it stands for the arithmetic only"
        ),
    )


def chart_factor(material: str, thickness: float, radius: float) -> float:
    """Interpolate the shop chart by thickness and radius, inside its range only.

    Raises:
        BadInput: the material, thickness or radius is not in the chart.
    """
    chart = table("bends", "neutral_chart")
    names = sorted({row.label for row in chart.rows})
    if material not in names:
        raise BadInput(f"material: found {material}; accepted: {', '.join(names)}")
    rows = chart.where(material=material)
    thicknesses = sorted({row.number("thickness") for row in rows.rows})
    radii = sorted({row.number("radius") for row in rows.rows})
    t = _inside("thickness", thickness / 25.4, thicknesses)
    r = _inside("radius", radius / 25.4, radii)
    across = [
        _between(t, [(each, _cell(rows, each, at)) for each in thicknesses])
        for at in radii
    ]
    return _between(r, list(zip(radii, across, strict=True)))


def _cell(rows: Table, thickness: float, radius: float) -> float:
    row = rows.where(thickness=thickness, radius=radius).rows[0]
    return row.number("factor")


def _inside(what: str, value: float, ends: Sequence[float]) -> float:
    low, high = ends[0], ends[-1]
    if not low * 0.999 <= value <= high * 1.001:
        raise BadInput(
            f"{what}: found {value * 25.4:.3g} mm; accepted in the chart: "
            f"{low * 25.4:.3g} to {high * 25.4:.3g} mm"
        )
    return min(max(value, low), high)


def _between(value: float, points: Sequence[tuple[float, float]]) -> float:
    for (left, low), (right, high) in itertools.pairwise(points):
        if value <= right:
            return low + (high - low) * (value - left) / (right - left)
    return points[-1][1]


def handbook_coefficient(temper: str) -> float:
    """Give c of length = c T + 1.57 R for 90 degrees, by temper."""
    return table("bends", "handbook").named(temper).number("coefficient")


THICKNESS = Input(
    "thickness", "sheet thickness, measured", "mm", accept=POSITIVE, also=("t", "s")
)
RADIUS = Input(
    "radius",
    "inside bend radius",
    "mm",
    accept=at_least(0),
    also=("r", "inside_radius", "bend_radius"),
)
BEND_ANGLE = Input(
    "bend_angle",
    "how far the sheet is turned; 180° less the included angle",
    "°",
    accept=between(0, 180),
    optional=True,
    also=("angle",),
)
INCLUDED_ANGLE = Input(
    "included_angle",
    "angle between the flanges, instead of the bend angle",
    "°",
    accept=between(0, 180),
    optional=True,
    also=("beta", "opening_angle"),
)


def bend_angle_of(given: Given, default: float = 90.0) -> float:
    """Give the bend angle from the one of the two angles that was typed.

    Raises:
        BadInput: both were typed and do not belong together.
    """
    turned, inside = given.maybe("bend_angle"), given.maybe("included_angle")
    if turned is not None and inside is not None and abs(turned + inside - 180) > 1e-9:
        raise BadInput(
            f"bend_angle {turned:g}° and included_angle {inside:g}° do not add up to "
            "180°; accepted: one of the two"
        )
    if turned is not None:
        return turned
    return default if inside is None else 180 - inside


def angle_results(bend_angle: float) -> tuple[Result, ...]:
    """Give both angles of a bend, so that they are never mixed up."""
    return (
        Result("bend_angle", bend_angle, "°", 2, "how far the sheet is turned"),
        Result("included_angle", 180 - bend_angle, "°", 2, "between the flanges"),
    )


def factor_results(factor: float, bend_angle: float) -> tuple[Result, ...]:
    """Give all three figures that are called K-factor, each by its own name."""
    return (
        Result("neutral_factor", factor, "", 3, "neutral line / thickness, 0 to 0.5"),
        Result("din_factor", 2 * factor, "", 3, "k of DIN 6935, twice that"),
        Result("setback_factor", setback_factor(bend_angle), "", 5, "tan(A/2)"),
    )


def _neutral(given: Given) -> Answer:
    t, r, a = given.number("thickness"), given.number("radius"), bend_angle_of(given)
    lines: list[tuple[str, float, str]] = []
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
    method = given.word("rule")
    chosen = next((factor for name, factor, _ in lines if name == method), None)
    if chosen is None:
        raise BadInput(
            "; ".join(misses)
            or f"rule: found {method}, which needs a material or temper it knows; "
            f"accepted: {', '.join(name for name, _, _ in lines)}"
        )
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
        sources=_rule_sources(material, given.word("temper")),
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


def din_allowance(bend_angle: float, r: float, s: float, k: float) -> float:
    """Give v of DIN 6935, to be added to the outside legs; mostly negative."""
    arc = math.radians(bend_angle) * (r + s / 2 * k)
    if bend_angle < 15:
        return 0.0
    if bend_angle < 90:
        return arc - 2 * (r + s) * setback_factor(bend_angle)
    return arc - 2 * (r + s)


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


RULES = ("DIN 6935", "FAA", "chart", "handbook")
TEMPERS = ("soft", "half-hard", "hard")

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
