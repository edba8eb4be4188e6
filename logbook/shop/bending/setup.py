"""The setup sheet: where each line goes, which way up, in which order.

Lengths in mm from one datum edge.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.shop.answers import Answer, Result
from logbook.shop.bending.bend_lines import BAR_EDGE, SIDES, TOOL
from logbook.shop.bending.bends import (
    Bend,
    flat_length,
    flat_parts,
    part_warnings,
    tangent_lines,
)
from logbook.shop.bending.bent_metal import (
    METAL,
    metal_sources,
    metal_warnings,
    rule_for_metal,
)
from logbook.shop.bending.clamping import clamp_warnings
from logbook.shop.bending.part_inputs import (
    BENDING,
    PART_INPUTS,
    allowance_doubt,
    bend_rows,
    bends_of,
    rule_said,
)
from logbook.shop.bending.setup_rows import cost_rows, step_rows
from logbook.shop.bending.setup_typed import (
    each_word,
    lines_of,
    order_of,
    set_angles,
    sides_held,
)
from logbook.shop.given import Given, Input, Kind, above, at_least, between
from logbook.shop.sums import Sum


def _sheet(given: Given) -> Answer:
    bends, legs_are = bends_of(given), given.word("legs_are")
    flats = flat_parts(given.numbers("legs"), bends, legs_are)
    sides = sides_held(given, flats, bends)
    lines = lines_of(given, bends, flats, sides)
    turns = set_angles(given, bends)
    ups = each_word(given, "direction", len(bends), "up")
    order = order_of(given, len(bends))
    return Answer(
        _results(given, bends, flats, lines, turns),
        tables=(
            step_rows(given, bends, lines, turns, sides),
            cost_rows(given, bends, sides),
            bend_rows(bends),
        ),
        assumptions=(
            "all lines from the end of the first leg, never from each other",
            f"legs are measured to the {legs_are}",
            rule_said(given),
            *rule_for_metal(given),
            *_assumed(given, sides),
        ),
        warnings=(
            *part_warnings(bends),
            *clamp_warnings(flats, bends, sides, ups, order),
            *_warnings(given, bends),
        ),
        alarms=part_warnings(bends),
        sources=metal_sources(given),
    )


def _results(
    given: Given,
    bends: Sequence[Bend],
    flats: Sequence[float],
    lines: Sequence[float],
    turns: Sequence[float],
) -> tuple[Result, ...]:
    total = flat_length(flats, bends)
    tangents = tuple(tangent_lines(flats, bends))
    doubt, tool = allowance_doubt(given, bends), f"for the {given.word('tool')}"
    return (
        Result("flat_length", total, "mm", 2, "length of the blank", sum(doubt)),
        Result("lines", tuple(lines), "mm", 2, tool, _line_doubt(doubt)),
        Result("tangent_lines", tangents, "mm", 2, "both"),
        Result("set_bend_angles", tuple(turns), "°", 1, "after springback: wanted"),
        Result("flats", tuple(flats), "mm", 2, "straight parts"),
    )


def _line_doubt(doubt: Sequence[float]) -> tuple[float, ...]:
    """Give what each line may be off: half of its bend, and all bends before it."""
    return tuple(sum(doubt[:at]) + each / 2 for at, each in enumerate(doubt))


def _assumed(given: Given, sides: Sequence[str]) -> list[str]:
    said = []
    if not given.has("springback") and not given.has("coupon_set"):
        said.append(
            "no springback known: the angle to set is the angle wanted; bend a coupon "
            "and give --coupon-set and --coupon-got"
        )
    if given.word("tool") == "folding bars" and not given.has("bar_edge"):
        said.append("the bar's edge has the inside radius of the bend")
    if not given.has("clamped") and given.word("tool") != "press brake":
        said.append(
            f"clamped {' '.join(sides)}, bend by bend: the side with fewer bends made "
            "yet, so that a bent flange does not foul the beam (common practice, no "
            "source); --clamped for another"
        )
    if not given.has("order"):
        said.append(
            "bends from the ends inward, so that bent flanges do not foul the tool; "
            "try it with a paper strip"
        )
    return said


def _warnings(given: Given, bends: Sequence[Bend]) -> list[str]:
    said = []
    if given.word("grain") == "along the bend lines":
        said.append(
            "bend lines along the rolling direction crack first: turn the blank, or "
            "take a larger radius"
        )
    return [*said, *metal_warnings(given, bends)]


SUMS = (
    Sum(
        name="setup-sheet",
        title="Setup sheet of a folded part: lines from one datum, order, face, angle",
        inputs=(
            *PART_INPUTS,
            TOOL,
            Input(
                "clamped",
                "side that is clamped, seen from the datum, one value per bend (near "
                "far) or one for all; the side with fewer bends made yet where not "
                "given",
                kind=Kind.CHOICE,
                choices=SIDES,
                many=True,
                optional=True,
                also=("clamped_side",),
            ),
            BAR_EDGE,
            Input(
                "direction",
                "fold with the marked face up, or down after turning the sheet over",
                kind=Kind.CHOICE,
                choices=("up", "down"),
                many=True,
                default="up",
            ),
            Input(
                "order",
                "numbers of the bends in the order of folding",
                kind=Kind.COUNT,
                accept=at_least(1),
                many=True,
                optional=True,
            ),
            Input(
                "springback",
                "degrees each bend gives back",
                "°",
                accept=at_least(0, 45),
                many=True,
                optional=True,
            ),
            Input(
                "coupon_set",
                "bend angle a coupon was turned to",
                "°",
                accept=between(0, 180),
                optional=True,
            ),
            Input(
                "coupon_got",
                "bend angle it had after springing back",
                "°",
                accept=above(0, 180),
                optional=True,
            ),
            Input(
                "grain",
                "rolling direction of the sheet",
                kind=Kind.CHOICE,
                choices=("across the bend lines", "along the bend lines", "not known"),
                default="not known",
            ),
            METAL,
        ),
        compute=_sheet,
        formula="press brake: tangent line + BA/2; folder: tangent line of the clamped "
        "side + R into the bend; folding bars: the same with the bar's edge radius",
        source="FAA-H-8083-31 volume 1 chapter 4 (sight line); press brake and bars: "
        "common practice",
        how="read",
        caution="The line belongs to the machine and to the side that is clamped: "
        "clamping the other side moves it.",
        dangers=BENDING,
        example={
            "legs": ("60 mm", "100 mm", "60 mm"),
            "radius": "3 mm",
            "thickness": "2.0 mm",
            "neutral_factor": "0.42",
            "tool": "folder",
            "material": "5052-H32",
            "coupon_set": "92°",
            "coupon_got": "90°",
        },
        also=(
            "bend-lines",
            "scribe-lines",
            "channel",
            "u-channel",
            "bracket",
            "folding",
        ),
    ),
)
