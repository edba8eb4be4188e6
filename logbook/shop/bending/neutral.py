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


def din_allowance(bend_angle: float, r: float, s: float, k: float) -> float:
    """Give v of DIN 6935, to be added to the outside legs; mostly negative."""
    arc = math.radians(bend_angle) * (r + s / 2 * k)
    if bend_angle < 15:
        return 0.0
    if bend_angle < 90:
        return arc - 2 * (r + s) * setback_factor(bend_angle)
    return arc - 2 * (r + s)


TEMPERS = ("soft", "half-hard", "hard")
