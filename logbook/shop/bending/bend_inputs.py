"""What every sum of one bend asks: thickness, radius, one of two angles.

Angles are bend angles in degrees: how far the sheet is turned, 180 less the
included angle.
"""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.shop.answers import Result
from logbook.shop.bending.neutral import setback_factor
from logbook.shop.given import POSITIVE, Given, Input, at_least, between

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
            f"bend angle {turned:g}° and included angle {inside:g}° do not add up to "
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
