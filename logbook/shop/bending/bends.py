"""Bends: allowance, setback, deduction, and the flat length of folded parts.

Pure arithmetic in mm and degrees. A bend angle says how far the sheet is
turned; legs are measured to the corner where the outside faces would meet,
unless said otherwise.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from logbook.counting import so_many
from logbook.errors import BadInput
from logbook.shop.bending.neutral import (
    FAA_RADIUS,
    FAA_THICKNESS,
    NAVY_RADIUS,
    factor_from_allowance,
    factor_warnings,
    setback_factor,
)

LEGS_ARE = ("outside corner", "outermost face", "inside corner", "flat part")


@dataclass(frozen=True, slots=True)
class Bend:
    """One bend: its angle (how far turned), inside radius and allowance, in mm."""

    angle: float
    radius: float
    thickness: float
    allowance: float

    @property
    def setback(self) -> float:
        """From the tangent line to the corner of the outside faces."""
        return setback_factor(self.angle) * (self.radius + self.thickness)

    @property
    def deduction(self) -> float:
        """What one bend takes off the sum of its legs."""
        return 2 * self.setback - self.allowance

    @property
    def factor(self) -> float:
        """The neutral factor its allowance stands for."""
        return factor_from_allowance(
            self.allowance, self.angle, self.radius, self.thickness
        )

    def off_leg(self, legs_are: str) -> float:
        """Give what this bend takes off a leg to leave its flat part."""
        if legs_are == "flat part":
            return 0.0
        if legs_are == "inside corner":
            return setback_factor(self.angle) * self.radius
        if legs_are == "outermost face" and self.angle > 90:
            return self.radius + self.thickness
        return self.setback


def bend(angle: float, radius: float, thickness: float, neutral_factor: float) -> Bend:
    """Make a bend with allowance rad(A) (R + K T)."""
    allowance = math.radians(angle) * (radius + neutral_factor * thickness)
    return Bend(angle, radius, thickness, allowance)


def flat_parts(
    legs: Sequence[float], bends: Sequence[Bend], legs_are: str = LEGS_ARE[0]
) -> list[float]:
    """Give the straight parts between the tangent lines, in mm.

    Raises:
        BadInput: the number of legs is not the bends and one, or a leg is used
            up by its bends.
    """
    if len(legs) != len(bends) + 1:
        raise BadInput(
            f"legs: found {len(legs)} with {so_many(bends, 'bend')}; accepted: one leg "
            "more than bends"
        )
    around: list[Bend | None] = [None, *bends, None]
    flats = []
    for number, leg in enumerate(legs):
        beside = [each for each in around[number : number + 2] if each]
        flat = leg - sum(each.off_leg(legs_are) for each in beside)
        if flat < 0:
            raise BadInput(
                f"legs: leg {number + 1} of {leg:g} mm is shorter than its bends take; "
                f"accepted: at least {leg - flat:.4g} mm"
            )
        flats.append(flat)
    return flats


def flat_length(flats: Sequence[float], bends: Sequence[Bend]) -> float:
    """Give the length of the blank: straight parts and allowances, in mm."""
    return sum(flats) + sum(each.allowance for each in bends)


def tangent_lines(flats: Sequence[float], bends: Sequence[Bend]) -> list[float]:
    """Give both tangent lines of each bend, from the end of the first leg, in mm."""
    lines, at = [], 0.0
    for flat, each in zip(flats, bends, strict=False):
        lines += [at + flat, at + flat + each.allowance]
        at = lines[-1]
    return lines


def set_angle(wanted: float, coupon_set: float, coupon_got: float) -> float:
    """Give the bend angle to set, in proportion to a coupon that sprang back.

    Raises:
        BadInput: the angle to set would pass 180°.
    """
    turn = wanted * coupon_set / coupon_got
    if turn >= 180:
        raise BadInput(
            f"the angle to set comes to {turn:.1f}°; accepted: a coupon that springs "
            "back less"
        )
    return turn


RULES = ("neutral factor", "DIN 6935", "FAA", "Navy", "handbook")


def allowance_by_rule(
    rule: str, angle: float, radius: float, thickness: float, figure: float
) -> float:
    """Give a bend allowance; `figure` is the neutral factor or handbook c."""
    if rule == "FAA":
        return (FAA_RADIUS * radius + FAA_THICKNESS * thickness) * angle
    if rule == "Navy":
        return (NAVY_RADIUS * radius + FAA_THICKNESS * thickness) * angle
    if rule == "handbook":
        return (figure * thickness + 1.57 * radius) * angle / 90
    return math.radians(angle) * (radius + figure * thickness)


def part_warnings(bends: Sequence[Bend]) -> tuple[str, ...]:
    """Warn of neutral factors that no bend has, once for each figure."""
    said = [line for each in bends for line in factor_warnings(each.factor)]
    return tuple(dict.fromkeys(said))
