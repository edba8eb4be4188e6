"""Springback reckoned from the metal, where no coupon was bent yet.

A bend opens by what was elastic in it. The radius it takes follows from tool
radius, thickness, yield stress and modulus, the angle from the unchanged length
of the middle of the sheet. Yield of a sheet is known to a tenth at best, so the
figure says where to start, and a coupon where to end.
"""

from __future__ import annotations

from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.bending.bend_inputs import (
    BEND_ANGLE,
    INCLUDED_ANGLE,
    RADIUS,
    THICKNESS,
    angle_results,
    bend_angle_of,
)
from logbook.shop.bending.part_inputs import BENDING
from logbook.shop.given import POSITIVE, Given, Input, Kind
from logbook.shop.sums import Sum

MODULI = {
    "steel": 205_000.0,
    "stainless": 195_000.0,
    "aluminium": 70_000.0,
    "copper": 120_000.0,
    "brass": 105_000.0,
}
"""Young's modulus in MPa; from memory, good to a few percent."""
_YIELD_DOUBT = 0.1
"""Share to which the yield stress of a sheet is known, at best."""


@dataclass(frozen=True, slots=True)
class Opened:
    """What a bend does when it is let go: radius in mm, share of its angle kept."""

    radius: float
    kept: float


def let_go(
    radius: float, thickness: float, yield_stress: float, modulus: float
) -> Opened:
    """Work out radius and share of the angle after springback.

    Lengths in mm, stresses in MPa: R/R' = 4 q³ − 3 q + 1 with q = R Y / (E T); the
    angle goes as (2 R/T + 1) / (2 R'/T + 1).

    Raises:
        BadInput: the sheet bends elastically only (q of a half and more).
    """
    q = radius * yield_stress / (modulus * thickness)
    if q >= 0.5:
        raise BadInput(
            f"radius: found {radius:g} mm on {thickness:g} mm sheet, which springs "
            "flat again; accepted: below "
            f"{0.5 * modulus * thickness / yield_stress:.4g} mm"
        )
    after = radius / (4 * q**3 - 3 * q + 1)
    return Opened(after, (2 * radius / thickness + 1) / (2 * after / thickness + 1))


def _compute(given: Given) -> Answer:
    wanted = bend_angle_of(given)
    stress = given.number("yield_stress")
    modulus = given.maybe("modulus") or MODULI[_metal(given)]
    sizes = given.number("radius"), given.number("thickness")
    found = let_go(*sizes, stress, modulus)
    ends = [
        wanted / let_go(*sizes, stress * share, modulus).kept
        for share in (1 - _YIELD_DOUBT, 1 + _YIELD_DOUBT)
    ]
    turn = wanted / found.kept
    if turn >= 180:
        raise BadInput(
            f"the angle to set comes to {turn:.0f}°; accepted: a smaller tool radius, "
            "or a bend of less"
        )
    doubt = max(abs(end - turn) for end in ends)
    return Answer(
        (
            Result("set_bend_angle", turn, "°", 1, "turn the sheet this far", doubt),
            Result("set_included_angle", 180 - turn, "°", 1, "the same as an opening",
                   doubt),
            Result("springback", turn - wanted, "°", 1, "what it gives back", doubt),
            Result("radius_after", found.radius, "mm", 2, "inside, when let go"),
            Result("angle_kept", found.kept, "", 3, "share of the angle set"),
            *angle_results(wanted),
        ),
        assumptions=(
            f"modulus {modulus / 1000:g} GPa, yield known to a tenth: hence the ±",
            "the sheet lies close to the tool's radius and is not coined",
        ),
    )  # fmt: skip


def _metal(given: Given) -> str:
    if not given.has("metal"):
        raise BadInput(
            f"modulus is missing; accepted: metal, one of {', '.join(MODULI)}, or a "
            "modulus such as 70 GPa"
        )
    return given.word("metal")


SUMS: tuple[Sum, ...] = (
    Sum(
        name="springback-estimate",
        also=("springback-from-yield",),
        title="Springback from yield and modulus, where no coupon was bent yet",
        inputs=(
            BEND_ANGLE,
            INCLUDED_ANGLE,
            RADIUS,
            THICKNESS,
            Input("yield_stress", "yield (0.2 % proof) stress of the sheet", "MPa",
                  accept=POSITIVE, also=("yield", "yield-strength", "y")),
            Input("metal", "for its modulus", kind=Kind.CHOICE, choices=tuple(MODULI),
                  optional=True, words={"aluminum": "aluminium"}),
            Input("modulus", "Young's modulus, instead of a metal", "MPa",
                  accept=POSITIVE, optional=True, also=("e",)),
        ),
        compute=_compute,
        formula="R/R' = 4 q³ - 3 q + 1, q = R Y / (E T); angle kept = (2R/T + 1) / "
        "(2R'/T + 1); set = wanted / angle kept",
        source="Gardiner 1957, as textbooks of sheet forming give it; moduli too",
        how="memory",
        caution="A place to start only: bend a coupon, then take the sum springback.",
        dangers=BENDING,
        example={"bend_angle": "90°", "radius": "3 mm", "thickness": "2.0 mm",
                 "yield_stress": "195 MPa", "metal": "aluminium"},
    ),
)  # fmt: skip
