"""The least inside radius of a bend, and the relief hole where two meet, as sums."""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.bending.bend_inputs import (
    BEND_ANGLE,
    INCLUDED_ANGLE,
    RADIUS,
    THICKNESS,
    bend_angle_of,
)
from logbook.shop.bending.radii import (
    STEELS,
    both_tables,
    din_radius,
    known_alloys,
    radius_sources,
    with_temper,
)
from logbook.shop.given import POSITIVE, Given, Input, Kind, above
from logbook.shop.sums import Sum


def _least(given: Given) -> Answer:
    material, t = given.word("material"), given.number("thickness")
    a, across = bend_angle_of(given), given.word("grain") != "along the bend line"
    if material.lower() in STEELS:
        least = din_radius(t, given.number("tensile_strength"), a, across=across)
        results = [
            Result("least_radius", least, "mm", 2, "inside"),
            Result("factor", least / t, "", 2, "in thicknesses"),
        ]
        return Answer(tuple(results), sources=radius_sources(material))
    material, said = with_temper(material, t)
    factor, pair, beyond = both_tables(material, t)
    if factor is None and pair is None:
        raise beyond or BadInput(
            f"material: found “{material}”; accepted: {', '.join(known_alloys())}"
        )
    taken = factor if factor is not None else (pair or (0, 0))[1]
    results = [
        Result("least_radius", taken * t, "mm", 2, "inside"),
        Result("factor", taken, "", 2, "in thicknesses"),
    ]
    if pair:
        results += [
            Result("aircraft_low", pair[0] * t, "mm", 2, "AC 43.13-1B from"),
            Result("aircraft_high", pair[1] * t, "mm", 2, "to"),
            Result("aircraft_multiples", pair, "", 2, "in thicknesses"),
        ]
    return Answer(
        tuple(results),
        assumptions=(
            "90° bend across the rolling direction"
            if factor is not None
            else "the upper end of the published range is taken",
        ),
        warnings=(*((said,) if said else ()), *_off_table(a, across=across)),
        sources=radius_sources(material),
    )


def _off_table(bend_angle: float, *, across: bool) -> tuple[str, ...]:
    said = []
    if bend_angle > 90:
        said.append("these tables are for 90°: a sharper bend wants more")
    if not across:
        said.append("along the rolling direction sheet cracks sooner: take more")
    return tuple(said)


def _relief(given: Given) -> Answer:
    t, r = given.number("thickness") / 25.4, given.number("radius") / 25.4
    if t > 0.128 * 1.001:
        raise BadInput(
            f"thickness: found {given.typed('thickness')}; accepted in the rule: up to "
            "3.25 mm (0.128 in)"
        )
    least = 0.125 if t <= 0.064 * 1.001 else 0.1875
    return Answer(
        (
            Result("hole", max(least, r) * 25.4, "mm", 2, "relief hole"),
            Result("minimum", least * 25.4, "mm", 2, "whatever the radius"),
        ),
        assumptions=(
            (
                "the source is loose about radius and diameter: the bend radius is "
                "taken as the size of the hole"
            ),
        ),
    )


SUMS = (
    Sum(
        name="bend-radius",
        title="Least inside bend radius by metal and thickness",
        inputs=(
            Input(
                "material",
                "alloy with temper (5052-H32, 6061-T6, 2024-T3 …) or steel",
                kind=Kind.TEXT,
                also=("alloy", "metal"),
            ),
            THICKNESS,
            BEND_ANGLE,
            INCLUDED_ANGLE,
            Input(
                "tensile_strength",
                "of steel, for DIN 6935",
                "MPa",
                accept=above(0),
                default="390 MPa",
                also=("tensile", "rm"),
            ),
            Input(
                "grain",
                "rolling direction",
                kind=Kind.CHOICE,
                choices=("across the bend line", "along the bend line"),
                words={"parallel": "along the bend line"},
                default="across the bend line",
            ),
        ),
        compute=_least,
        formula="least radius = factor x thickness; factor of the listed or next "
        "thicker sheet; steel by DIN 6935 bands",
        source="a trade table; FAA AC 43.13-1B table 4-6; DIN 6935",
        how="read",
        caution="Tables differ by trade; a bent coupon of this sheet decides.",
        dangers=("sheet edges",),
        example={"material": "5052-H32", "thickness": "2.0 mm"},
        also=("minimum-radius", "least-radius", "minimum-bend-radius"),
    ),
    Sum(
        name="bend-relief",
        title="Relief hole where two bends meet",
        inputs=(
            Input("thickness", "sheet thickness", "mm", accept=POSITIVE, also=("t",)),
            RADIUS,
        ),
        compute=_relief,
        formula="hole = bend radius, at least 1/8 in to 0.064 in sheet, 3/16 in to "
        "0.128 in",
        source="FAA-H-8083-31 volume 1 chapter 4",
        how="read",
        dangers=("sheet edges",),
        example={"thickness": "0.040 in", "radius": "0.094 in"},
        also=("relief-hole",),
    ),
)
