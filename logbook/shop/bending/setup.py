"""The setup sheet: where each line goes, which way up, in which order.

A line is right for one machine only. On a press brake the punch comes down on
the bend's centre. On a folder the line lies under the nose, one inside radius
from the tangent line of the clamped side, inside the bend. Folding bars in a
vice do the same with the radius of the bar's edge; over sharp bars the line is
the tangent line itself. Lengths in mm from one datum edge.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.bending.bends import (
    BENDING,
    PART_INPUTS,
    Bend,
    allowance_by_rule,
    allowance_doubt,
    bend_rows,
    bends_of,
    each_of,
    flat_parts,
    part_warnings,
    rule_and_figure,
    rule_said,
    set_angle,
    tangent_lines,
)
from logbook.shop.bending.bent_metal import (
    METAL,
    metal_sources,
    metal_warnings,
    rule_for_metal,
)
from logbook.shop.bending.clamping import clamp_warnings, usual_sides
from logbook.shop.bending.neutral import (
    BEND_ANGLE,
    INCLUDED_ANGLE,
    RADIUS,
    THICKNESS,
    angle_results,
    bend_angle_of,
)
from logbook.shop.given import Given, Input, Kind, above, at_least, between
from logbook.shop.sums import Sum

TOOLS = ("press brake", "folder", "folding bars")
MARKS = (
    "sight line",
    "sight line of the other side",
    "bend centre",
    "near tangent line",
    "far tangent line",
    "outside corner",
)
SIDES = ("near", "far")


def line_in_bend(bend: Bend, tool: str, clamped: str, bar_edge: float) -> float:
    """Give the line's place from the bend's near tangent line, in mm.

    `clamped` is the side that is held: `near` the datum or `far` from it.
    """
    if tool == "press brake":
        return bend.allowance / 2
    inward = bend.radius if tool == "folder" else bar_edge
    return inward if clamped == "near" else bend.allowance - inward


def mark_in_bend(bend: Bend, mark: str, clamped: str) -> float:
    """Give where a mark of another kind lies, from the near tangent line, in mm.

    The outside corner is the outside size of the leg towards the datum, marked
    off on the flat sheet.
    """
    held, other = bend.radius, bend.allowance - bend.radius
    if clamped == "far":
        held, other = other, held
    places = {
        "sight line": held,
        "sight line of the other side": other,
        "bend centre": bend.allowance / 2,
        "near tangent line": 0.0,
        "far tangent line": bend.allowance,
        "outside corner": bend.setback,
    }
    return places[mark]


def bend_order(count: int) -> list[int]:
    """Give the usual order, ends before the middle, by number of bend from 1."""
    order, left, right = [], 1, count
    while left <= right:
        order += [left, right] if left < right else [left]
        left, right = left + 1, right - 1
    return order


def _sides(given: Given, flats: Sequence[float], bends: Sequence[Bend]) -> list[str]:
    """Give the side held at each bend: as typed, else as is usual on a folder."""
    count = len(bends)
    if given.has("clamped") or given.word("tool") == "press brake":
        return _each_word(given, "clamped", count, SIDES[0])
    return usual_sides(flats, _order(given, count), bends[0].thickness)


def _lines(
    given: Given, bends: Sequence[Bend], flats: Sequence[float], sides: Sequence[str]
) -> list[float]:
    tangents = tangent_lines(flats, bends)
    tool = given.word("tool")
    lines = []
    for number, each in enumerate(bends):
        edge = given.maybe("bar_edge")
        edge = each.radius if edge is None else edge
        lines.append(
            tangents[2 * number] + line_in_bend(each, tool, sides[number], edge)
        )
    return lines


def _each_word(given: Given, name: str, count: int, default: str) -> list[str]:
    words = list(given.words(name)) or [default]
    if len(words) == 1:
        return words * count
    if len(words) != count:
        raise BadInput(
            f"{name}: found {len(words)} for {count} bends; accepted: one for all or "
            "one for each"
        )
    return words


def _order(given: Given, count: int) -> list[int]:
    typed = [int(each) for each in given.numbers("order")]
    if not typed:
        return bend_order(count)
    if sorted(typed) != list(range(1, count + 1)):
        raise BadInput(
            f"order: found {given.typed('order')}; accepted: each bend from 1 to "
            f"{count} once"
        )
    return typed


def _set_angles(given: Given, bends: Sequence[Bend]) -> list[float]:
    if given.has("coupon_set") != given.has("coupon_got"):
        raise BadInput(
            "coupon_set and coupon_got: found one of them; accepted: both, from one "
            "coupon, or neither"
        )
    if given.has("coupon_set"):
        at, got = given.number("coupon_set"), given.number("coupon_got")
        return [set_angle(each.angle, at, got) for each in bends]
    extra = each_of(given, "springback", len(bends), 0.0)
    return [each.angle + more for each, more in zip(bends, extra, strict=True)]


def _sheet(given: Given) -> Answer:
    legs, bends = given.numbers("legs"), bends_of(given)
    legs_are = given.word("legs_are")
    flats = flat_parts(legs, bends, legs_are)
    total = sum(flats) + sum(each.allowance for each in bends)
    sides = _sides(given, flats, bends)
    lines = _lines(given, bends, flats, sides)
    turns = _set_angles(given, bends)
    doubt = allowance_doubt(given, bends)
    return Answer(
        (
            Result("flat_length", total, "mm", 2, "length of the blank", sum(doubt)),
            Result(
                "lines",
                tuple(lines),
                "mm",
                2,
                f"for the {given.word('tool')}",
                _line_doubt(doubt),
            ),
            Result(
                "tangent_lines", tuple(tangent_lines(flats, bends)), "mm", 2, "both"
            ),
            Result("set_bend_angles", tuple(turns), "°", 1, "after springback: wanted"),
            Result("flats", tuple(flats), "mm", 2, "straight parts"),
        ),
        tables=(
            _steps(given, bends, lines, turns, sides),
            _costs(given, bends, sides),
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
            *clamp_warnings(
                flats,
                bends,
                sides,
                _each_word(given, "direction", len(bends), "up"),
                _order(given, len(bends)),
            ),
            *_warnings(given, bends),
        ),
        alarms=part_warnings(bends),
        sources=metal_sources(given),
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


def _steps(
    given: Given,
    bends: Sequence[Bend],
    lines: Sequence[float],
    turns: Sequence[float],
    sides: Sequence[str],
) -> Rows:
    ups = _each_word(given, "direction", len(bends), "up")
    rows = []
    for step, number in enumerate(_order(given, len(bends)), 1):
        at = number - 1
        rows.append(
            (
                step,
                number,
                lines[at],
                f"{sides[at]} side",
                "marked face" if ups[at] == "up" else "back face",
                ups[at],
                bends[at].angle,
                turns[at],
                180 - turns[at],
                given.word("grain"),
            )
        )
    columns = (
        Column("step"),
        Column("bend"),
        Column("line", "mm", 2),
        Column("clamp"),
        Column("face up"),
        Column("fold marked face"),
        Column("bend angle", "°", 1),
        Column("set bend angle", "°", 1),
        Column("set included angle", "°", 1),
        Column("grain"),
    )
    return Rows("setup sheet", columns, tuple(rows))


def _costs(given: Given, bends: Sequence[Bend], sides: Sequence[str]) -> Rows:
    """Give what each flange gains or loses when the line is another one."""
    rows = []
    for number, each in enumerate(bends):
        edge = given.maybe("bar_edge")
        right = line_in_bend(
            each,
            given.word("tool"),
            sides[number],
            each.radius if edge is None else edge,
        )
        for mark in MARKS:
            shift = mark_in_bend(each, mark, sides[number]) - right
            if abs(shift) > 1e-9:
                rows.append((number + 1, mark, shift, -shift))
    columns = (
        Column("bend"),
        Column("if the line were the"),
        Column("leg towards datum", "mm", 2),
        Column("leg away", "mm", 2),
    )
    return Rows("what a line on the wrong reference costs", columns, tuple(rows))


def _warnings(given: Given, bends: Sequence[Bend]) -> list[str]:
    said = []
    if given.word("grain") == "along the bend lines":
        said.append(
            "bend lines along the rolling direction crack first: turn the blank, or "
            "take a larger radius"
        )
    return [*said, *metal_warnings(given, bends)]


def _wrong_line(given: Given) -> Answer:
    a, t, r = bend_angle_of(given), given.number("thickness"), given.number("radius")
    if given.has("allowance"):
        allowance = given.number("allowance")
    else:
        rule, value = rule_and_figure(given, r, t)
        allowance = allowance_by_rule(rule, a, r, t, value)
    made = Bend(a, r, t, allowance)
    edge = given.maybe("bar_edge")
    tool, side = given.word("tool"), given.word("clamped")
    right = line_in_bend(made, tool, side, r if edge is None else edge)
    found = mark_in_bend(made, given.word("marked"), side)
    shift = found - right
    toward, away = (shift, -shift) if side == "near" else (-shift, shift)
    return Answer(
        (
            Result("shift", shift, "mm", 2, "the bend moves away from the datum"),
            Result("clamped_leg", toward, "mm", 2, "change of the leg that is held"),
            Result("free_leg", away, "mm", 2, "change of the leg that is folded"),
            Result("right_line", right, "mm", 2, "from the near tangent line"),
            *angle_results(a),
        ),
        assumptions=(rule_said(given),),
        warnings=part_warnings([made]),
        alarms=part_warnings([made]),
    )


_TOOL = Input(
    "tool",
    "what the part is folded on",
    kind=Kind.CHOICE,
    choices=TOOLS,
    words={
        "vice": "folding bars",
        "bars": "folding bars",
        "vise": "folding bars",
        "box and pan folder": "folder",
        "box-and-pan": "folder",
        "leaf brake": "folder",
        "hand brake": "folder",
        "pressbrake": "press brake",
    },
    default="folder",
    also=("machine",),
)
_BAR_EDGE = Input(
    "bar_edge",
    "radius of the edge of the folding bars, 0 for sharp ones",
    "mm",
    accept=at_least(0),
    optional=True,
)

SUMS = (
    Sum(
        name="setup-sheet",
        title="Setup sheet of a folded part: lines from one datum, order, face, angle",
        inputs=(
            *PART_INPUTS,
            _TOOL,
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
            _BAR_EDGE,
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
    Sum(
        name="wrong-line",
        title="What a line on the wrong reference costs each flange",
        inputs=(
            BEND_ANGLE,
            INCLUDED_ANGLE,
            RADIUS,
            THICKNESS,
            *(
                each
                for each in PART_INPUTS
                if each.name in {"neutral_factor", "rule", "temper", "allowance"}
            ),
            _TOOL,
            Input(
                "clamped",
                "side that is clamped, seen from the datum",
                kind=Kind.CHOICE,
                choices=SIDES,
                default="near",
            ),
            _BAR_EDGE,
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
