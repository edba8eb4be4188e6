"""Blanks of folded parts: allowance of a bend, flat length, the leg left over."""

from __future__ import annotations

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
from logbook.shop.bending.bends import (
    Bend,
    flat_length,
    flat_parts,
    part_warnings,
    set_angle,
    tangent_lines,
)
from logbook.shop.bending.bent_metal import (
    METAL,
    metal_sources,
    metal_warnings,
    rule_for_metal,
)
from logbook.shop.bending.part_inputs import (
    BENDING,
    FACTOR_INPUTS,
    PART_INPUTS,
    allowance_doubt,
    bend_rows,
    bends_of,
    one_bend,
    rule_said,
)
from logbook.shop.given import POSITIVE, Given, Input, Kind, above, at_least, between
from logbook.shop.sums import Sum


def _allowance(given: Given) -> Answer:
    made = one_bend(given)
    (doubt,) = allowance_doubt(given, [made])
    return Answer(
        (
            Result("allowance", made.allowance, "mm", 3, "arc of the bend", doubt),
            Result("setback", made.setback, "mm", 3, "outside, tangent to corner"),
            Result("deduction", made.deduction, "mm", 3, "off the sum of legs", doubt),
            Result("allowance_per_degree", made.allowance / made.angle, "mm", 5),
            *factor_results(made.factor, made.angle),
            *angle_results(made.angle),
        ),
        assumptions=(rule_said(given), *rule_for_metal(given)),
        warnings=(*part_warnings([made]), *metal_warnings(given, [made])),
        alarms=part_warnings([made]),
        sources=metal_sources(given),
    )


def _flat(given: Given) -> Answer:
    legs, bends = given.numbers("legs"), bends_of(given)
    legs_are = given.word("legs_are")
    flats = flat_parts(legs, bends, legs_are)
    total = flat_length(flats, bends)
    lines = tangent_lines(flats, bends)
    doubt = allowance_doubt(given, bends)
    centres = [(a + b) / 2 for a, b in zip(lines[::2], lines[1::2], strict=True)]
    return _of_part(
        given,
        bends,
        (
            Result("flat_length", total, "mm", 2, "length of the blank", sum(doubt)),
            Result("flats", tuple(flats), "mm", 2, "straight parts"),
            Result("allowances", tuple(b.allowance for b in bends), "mm", 3, "", doubt),
            Result("setbacks", tuple(b.setback for b in bends), "mm", 3),
            Result("deductions", tuple(b.deduction for b in bends), "mm", 3),
            Result("tangent_lines", tuple(lines), "mm", 2, "from the first leg's end"),
            Result("bend_centres", tuple(centres), "mm", 2, "from the first leg's end"),
            Result("neutral_factors", tuple(b.factor for b in bends), "", 3),
        ),
    )


def _leg_from_flat(given: Given) -> Answer:
    known = given.numbers("legs")
    bends = bends_of(_with_one_leg_more(given))
    place = given.count("missing_leg") if given.has("missing_leg") else len(known) + 1
    if not 1 <= place <= len(known) + 1:
        raise BadInput(f"missing leg: found {place}; accepted: 1 to {len(known) + 1}")
    legs_are = given.word("legs_are")
    off = [each.off_leg(legs_are) for each in bends]
    taken = sum(2 * one for one in off) - sum(each.allowance for each in bends)
    leg = given.number("flat_length") + taken - sum(known)
    flat_parts([*known[: place - 1], leg, *known[place - 1 :]], bends, legs_are)
    return _of_part(
        given,
        bends,
        (
            Result(
                "leg",
                leg,
                "mm",
                2,
                f"leg {place} out of this blank",
                sum(allowance_doubt(given, bends)),
            ),
        ),
    )


def _of_part(given: Given, bends: list[Bend], results: tuple[Result, ...]) -> Answer:
    """Give results about a folded part, with its bends and what they rest on."""
    return Answer(
        results,
        tables=(bend_rows(bends),),
        assumptions=(
            f"legs are measured to the {given.word('legs_are')}",
            rule_said(given),
            *rule_for_metal(given),
        ),
        warnings=(*part_warnings(bends), *metal_warnings(given, bends)),
        alarms=part_warnings(bends),
        sources=metal_sources(given),
    )


def _with_one_leg_more(given: Given) -> Given:
    legs = given.values["legs"]
    return Given({**given.values, "legs": (*legs, legs[-1])}, given.assumed)


def _springback(given: Given) -> Answer:
    wanted = bend_angle_of(given)
    turn = set_angle(wanted, given.number("coupon_set"), given.number("coupon_got"))
    return Answer(
        (
            Result("set_bend_angle", turn, "°", 1, "turn the sheet this far"),
            Result("set_included_angle", 180 - turn, "°", 1, "the same as an opening"),
            Result("springback", turn - wanted, "°", 1, "what it gives back"),
            *angle_results(wanted),
        ),
        assumptions=(
            (
                "springback in proportion to the angle, as the coupon had it: same "
                "sheet, radius and tool"
            ),
        ),
    )


SUMS = (
    Sum(
        name="bend-allowance",
        title="Allowance, outside setback and deduction of one bend",
        inputs=(BEND_ANGLE, INCLUDED_ANGLE, RADIUS, THICKNESS, *FACTOR_INPUTS, METAL),
        compute=_allowance,
        formula="BA = rad(A) (R + K T); setback = tan(A/2) (R + T); "
        "BD = 2 setback - BA; FAA: BA = (0.01743 R + 0.0078 T) A; "
        "handbook: BA = (c T + 1.57 R) A / 90",
        source="FAA-H-8083-31 volume 1 chapter 4; AC 43.13-1B paragraph 4-56; DIN 6935",
        how="read",
        caution="A is the bend angle. A bare “K-factor” can be any of three figures; "
        "all three are shown under their own names.",
        dangers=BENDING,
        example={
            "bend_angle": "90°",
            "radius": "3 mm",
            "thickness": "2 mm",
            "neutral_factor": "0.44",
        },
        also=("bend", "bend-deduction", "setback"),
    ),
    Sum(
        name="flat-length",
        title="Flat length of a folded part, any number of bends at any angle",
        inputs=(*PART_INPUTS, METAL),
        compute=_flat,
        formula="flat = sum of straight parts + sum of BA; straight part = leg - "
        "setback of each bend beside it; for outside legs flat = sum of legs - "
        "sum of BD",
        source="FAA-H-8083-31 volume 1 chapter 4; DIN 6935",
        how="read",
        caution="Beyond a bend angle of 90° the outside corner lies off the part: "
        "say with legs_are what was measured.",
        dangers=BENDING,
        example={
            "legs": ("12 mm", "60 mm", "100 mm", "60 mm", "12 mm"),
            "bend_angles": "90°",
            "radius": "3 mm",
            "thickness": "2.0 mm",
            "neutral_factor": "0.42",
        },
        also=("flat", "developed-length", "bend-flat"),
    ),
    Sum(
        name="leg-from-flat",
        title="The leg that a cut blank leaves, when the others are kept",
        inputs=(
            Input("flat_length", "length of the blank", "mm", accept=POSITIVE),
            *PART_INPUTS,
            METAL,
            Input(
                "missing_leg",
                "number of the leg sought; the last where not given",
                kind=Kind.COUNT,
                accept=at_least(1),
                optional=True,
            ),
        ),
        compute=_leg_from_flat,
        formula="leg = flat + sum of BD - sum of the other legs",
        source="the flat length solved for one leg",
        how="computed",
        dangers=BENDING,
        example={
            "flat_length": "150 mm",
            "legs": ("40 mm", "80 mm"),
            "radius": "3 mm",
            "thickness": "2 mm",
            "neutral_factor": "0.42",
        },
    ),
    Sum(
        name="springback",
        title="Angle to set so that the bend springs back to the wanted one",
        inputs=(
            BEND_ANGLE,
            INCLUDED_ANGLE,
            Input(
                "coupon_set",
                "bend angle a coupon was turned to",
                "°",
                accept=between(0, 180),
                also=("set",),
            ),
            Input(
                "coupon_got",
                "bend angle it had after springing back",
                "°",
                accept=above(0, 180),
                also=("got",),
            ),
        ),
        compute=_springback,
        formula="set = wanted x coupon set / coupon got",
        source="common practice, no source",
        how="common practice",
        dangers=BENDING,
        example={"bend_angle": "90°", "coupon_set": "93°", "coupon_got": "90°"},
        also=("angle-to-set",),
    ),
)
