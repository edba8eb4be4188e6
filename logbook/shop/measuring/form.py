"""Form errors as they show at the bench: out of square, lean, bow, twist.

Small and large angles alike: sines and arc tangents, not rules of thumb.
Lengths in mm, angles in degrees.
"""

from __future__ import annotations

import math

from logbook.counting import so_many
from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import ANY, POSITIVE, Given, Input, at_least, between
from logbook.shop.sums import Sum

ARC_MINUTES = 60


def square_error(
    width: float, height: float, diagonal: float, other_diagonal: float
) -> float:
    """Give the angle off square, in degrees, from both diagonals of a frame.

    Positive where `diagonal` is the longer one. The sides count as parallel.

    Raises:
        BadInput: no frame of these sides has these diagonals.
    """
    lean = (diagonal**2 - other_diagonal**2) / (4 * width * height)
    if abs(lean) >= 1:
        raise BadInput(
            f"diagonals: found {diagonal:g} and {other_diagonal:g} mm on a frame of "
            f"{width:g} by {height:g} mm; accepted: diagonals such a frame can have"
        )
    return math.degrees(math.asin(lean))


def sagitta_radius(chord: float, height: float) -> float:
    """Give the radius of an arc from its chord and rise, in mm."""
    return chord**2 / (8 * height) + height / 2


def _square(given: Given) -> Answer:
    width, height = given.number("width"), given.number("height")
    one, other = given.numbers("diagonals")[:2] if _two(given) else (0.0, 0.0)
    error = square_error(width, height, one, other)
    shift = height * math.sin(math.radians(error))
    nominal = math.hypot(width, height)
    closure = (one**2 + other**2) / 2 - width**2 - height**2
    said = (
        (
            (
                f"the diagonals do not belong to these sides by "
                f"{abs(closure) / nominal:.1f} "
                "mm: a side is not as given, or opposite sides differ"
            ),
        )
        if abs(closure) / nominal > 1.0
        else ()
    )
    return Answer(
        (
            Result("off_square", error, "°", 3, "angle error of the corners"),
            Result("off_square_minutes", error * ARC_MINUTES, "′", 1),
            Result("shift", shift, "mm", 2, "of one side over the height"),
            Result("diagonal_difference", one - other, "mm", 2),
            Result("square_diagonal", nominal, "mm", 2, "both, were it square"),
        ),
        assumptions=("opposite sides are equal and straight",),
        warnings=said,
    )


def _two(given: Given) -> bool:
    found = given.numbers("diagonals")
    if len(found) != 2:
        raise BadInput(f"diagonals: found {len(found)}; accepted: both diagonals")
    return True


def _lean(given: Given) -> Answer:
    offset, height = given.number("offset"), given.number("height")
    angle = math.degrees(math.atan2(offset, height))
    return Answer(
        (
            Result("lean", angle, "°", 3, "off upright"),
            Result("lean_minutes", angle * ARC_MINUTES, "′", 1),
            Result("per_100", 100 * offset / height, "mm", 3, "over 100 mm"),
        )
    )


def _tip(given: Given) -> Answer:
    angle, leg = given.number("angle_error"), given.number("leg")
    shift = leg * math.sin(math.radians(angle))
    drop = leg * (1 - math.cos(math.radians(angle)))
    return Answer(
        (
            Result("shift", shift, "mm", 3, "of the tip, sideways"),
            Result("drop", drop, "mm", 3, "of the tip, along the leg"),
            Result("angle_error", angle, "°", 3),
        )
    )


def _bow(given: Given) -> Answer:
    length, gap = given.number("length"), given.number("gap")
    part = given.maybe("span")
    if gap > length / 2:
        raise BadInput(
            f"gap: found {gap:g} mm under {length:g} mm, more than half a circle; "
            "accepted: up to half the length"
        )
    if part is not None and part > length:
        raise BadInput(
            f"span: found {part:g} mm; accepted: up to the {length:g} mm measured"
        )
    radius = sagitta_radius(length, gap) if gap else math.inf
    results = [
        Result("radius", radius, "mm", 0, "of the curve"),
        Result("bow_per_length", 1000 * gap / length, "mm/m", 2),
    ]
    if part is not None:
        results.append(
            Result(
                "gap_over_span", gap * (part / length) ** 2, "mm", 3, "over the span"
            )
        )
    return Answer(
        tuple(results), assumptions=("one even curve, measured at the middle",)
    )


def _twist(given: Given) -> Answer:
    corners = given.numbers("corners")
    if len(corners) != 4:
        raise BadInput(
            f"corners: found {so_many(corners, 'height')}; accepted: four, in order "
            "around the part"
        )
    a, b, c, d = corners
    rise = (a - b) + (c - d)
    length, width = given.number("length"), given.number("width")
    angle = math.degrees(math.atan2(rise, width))
    return Answer(
        (
            Result("twist", rise, "mm", 3, "one corner out of the plane of the others"),
            Result("rock", abs(rise) / 2, "mm", 3, "gap under each of two corners"),
            Result("twist_angle", angle, "°", 3, "between the two ends"),
            Result("twist_per_length", angle / length * 1000, "°/m", 3),
        )
    )


def _length(name: str, meaning: str, *also: str) -> Input:
    return Input(name, meaning, "mm", accept=POSITIVE, also=also)


SUMS = (
    Sum(
        name="out-of-square",
        title="Out of square from the two diagonals",
        inputs=(
            _length("width", "side along which the diagonals start", "w"),
            _length("height", "the other side", "h"),
            Input("diagonals", "both diagonals", "mm", accept=POSITIVE, many=True),
        ),
        compute=_square,
        formula="sin(error) = (d1² - d2²) / (4 w h); shift = h sin(error)",
        source="geometry of the parallelogram",
        how="computed",
        example={
            "width": "180 mm",
            "height": "100 mm",
            "diagonals": ("206.3 mm", "205.5 mm"),
        },
        also=("diagonals",),
    ),
    Sum(
        name="lean",
        title="Lean of an upright, from an offset over a height to an angle",
        inputs=(
            Input("offset", "sideways at the top, from a square", "mm", accept=ANY),
            _length("height", "over which the offset was measured", "length"),
        ),
        compute=_lean,
        formula="tan(lean) = offset / height",
        source="trigonometry",
        how="computed",
        example={"offset": "0.7 mm", "height": "100 mm"},
    ),
    Sum(
        name="tip-shift",
        title="What an angle error does at the tip of a leg",
        inputs=(
            Input(
                "angle_error",
                "how far the bend or upright is off",
                "°",
                accept=between(-90, 90),
                also=("angle",),
            ),
            _length("leg", "length of the leg to its tip", "length"),
        ),
        compute=_tip,
        formula="shift = leg sin(error); drop = leg (1 - cos(error))",
        source="trigonometry",
        how="computed",
        example={"angle_error": "0.4°", "leg": "100 mm"},
    ),
    Sum(
        name="bow",
        title="Bow of a bar or sheet, from the gap under a straightedge",
        inputs=(
            _length("length", "of the straightedge between its contacts", "chord"),
            Input("gap", "at the middle", "mm", accept=at_least(0), also=("rise",)),
            Input(
                "span",
                "a shorter part of it, to know the gap there",
                "mm",
                accept=POSITIVE,
                optional=True,
            ),
        ),
        compute=_bow,
        formula="radius = length² / (8 gap) + gap / 2; over a span gap (span/length)²",
        source="geometry of the circle",
        how="computed",
        example={"length": "300 mm", "gap": "0.4 mm"},
    ),
    Sum(
        name="twist",
        title="Twist of a board or frame, from the heights of four corners",
        inputs=(
            Input(
                "corners",
                "heights of the four corners, in order around",
                "mm",
                many=True,
            ),
            _length("length", "between the two ends"),
            _length("width", "across an end"),
        ),
        compute=_twist,
        formula="twist = (z1 - z2) + (z3 - z4); tan(angle) = twist / width",
        source="geometry of the warped plane",
        how="computed",
        example={
            "corners": ("0 mm", "0 mm", "0.6 mm", "0 mm"),
            "length": "240 mm",
            "width": "180 mm",
        },
    ),
)
