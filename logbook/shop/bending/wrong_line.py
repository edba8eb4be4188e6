"""What a line on the wrong reference costs each flange of a bend."""

from __future__ import annotations

from logbook.shop.answers import Answer, Result
from logbook.shop.bending.bend_inputs import (
    BEND_ANGLE,
    INCLUDED_ANGLE,
    RADIUS,
    THICKNESS,
    angle_results,
)
from logbook.shop.bending.bend_lines import (
    BAR_EDGE,
    MARKS,
    SIDES,
    TOOL,
    line_in_bend,
    mark_in_bend,
)
from logbook.shop.bending.bends import part_warnings
from logbook.shop.bending.part_inputs import (
    BENDING,
    FACTOR_INPUTS,
    one_bend,
    rule_said,
)
from logbook.shop.given import Given, Input, Kind
from logbook.shop.sums import Sum


def _wrong_line(given: Given) -> Answer:
    made = one_bend(given)
    edge = given.maybe("bar_edge")
    tool, side = given.word("tool"), given.word("clamped")
    right = line_in_bend(made, tool, side, made.radius if edge is None else edge)
    found = mark_in_bend(made, given.word("marked"), side)
    shift = found - right
    toward, away = (shift, -shift) if side == "near" else (-shift, shift)
    return Answer(
        (
            Result("shift", shift, "mm", 2, "the bend moves away from the datum"),
            Result("clamped_leg", toward, "mm", 2, "change of the leg that is held"),
            Result("free_leg", away, "mm", 2, "change of the leg that is folded"),
            Result("right_line", right, "mm", 2, "from the near tangent line"),
            *angle_results(made.angle),
        ),
        assumptions=(rule_said(given),),
        warnings=part_warnings([made]),
        alarms=part_warnings([made]),
    )


SUMS = (
    Sum(
        name="wrong-line",
        title="What a line on the wrong reference costs each flange",
        inputs=(
            BEND_ANGLE,
            INCLUDED_ANGLE,
            RADIUS,
            THICKNESS,
            *FACTOR_INPUTS,
            TOOL,
            Input(
                "clamped",
                "side that is clamped, seen from the datum",
                kind=Kind.CHOICE,
                choices=SIDES,
                default="near",
            ),
            BAR_EDGE,
            Input(
                "marked",
                "what the scribed line really is",
                kind=Kind.CHOICE,
                choices=MARKS,
            ),
        ),
        compute=_wrong_line,
        formula="shift = place of the line used - place of the right line",
        source="geometry of the bend",
        how="computed",
        dangers=BENDING,
        example={
            "radius": "3 mm",
            "thickness": "2 mm",
            "neutral_factor": "0.42",
            "tool": "folder",
            "marked": "outside corner",
        },
        also=("line-error",),
    ),
)
