"""Which side of each bend is held, and what then fouls what.

A flange already bent does not go under the beam, so the side with fewer bends
made is held. Lengths in mm, angles are bend angles in degrees. The limits here
are common practice, no source: a machine's own figures win.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence

from logbook.shop.bending.bends import Bend
from logbook.shop.bending.neutral import setback_factor

LEAST_HELD, HELD_THICKNESSES = 10.0, 4.0
"""Least flat part that a clamp holds, in mm and in thicknesses; the larger of
the two. Common practice, no source."""
SQUARE = 80.0
"""Bend angle from which a flange stands up far enough to meet the beam (degrees);
common practice, no source."""


def least_held(thickness: float) -> float:
    """Give the least flat part that a clamp holds, in mm."""
    return max(LEAST_HELD, HELD_THICKNESSES * thickness)


def usual_sides(
    flats: Sequence[float], order: Sequence[int], thickness: float
) -> list[str]:
    """Give the side held at each bend, by number of bend, seen from the datum.

    The side with fewer bends already made is held; with as many on both, the
    one with the longer flat part, but on a sheet still flat the datum's side,
    unless too little of it is there to hold.
    """
    sides, made = ["near"] * len(order), set[int]()
    for number in order:
        before = sum(each < number for each in made)
        after = len(made) - before
        near, far = flats[number - 1], flats[number]
        enough = not made and near >= least_held(thickness)
        if after < before or (after == before and not enough and far > near):
            sides[number - 1] = "far"
        made.add(number)
    return sides


def clamp_warnings(
    flats: Sequence[float],
    bends: Sequence[Bend],
    sides: Sequence[str],
    ups: Sequence[str],
    order: Sequence[int],
) -> Iterator[str]:
    """Say where too little is left to hold, and which flanges foul."""
    for number, (each, side) in enumerate(zip(bends, sides, strict=True), 1):
        held = flats[number - 1 if side == "near" else number]
        least = least_held(each.thickness)
        if held < least:
            yield (
                f"bend {number}: only {held:.1f} mm of flat is left to clamp on the "
                f"{side} side; {least:g} mm at least, and {HELD_THICKNESSES:g} "
                "thicknesses (common practice, no source)"
            )
    yield from _fouling(flats, bends, ups, order)


def _fouling(
    flats: Sequence[float],
    bends: Sequence[Bend],
    ups: Sequence[str],
    order: Sequence[int],
) -> Iterator[str]:
    lengths = _inside(flats, bends)
    for left, right in itertools.pairwise(range(1, len(bends) + 1)):
        if ups[left - 1] != ups[right - 1]:
            continue  # folded to opposite faces they part
        web = lengths[left]
        flanges = {left: lengths[left - 1], right: lengths[right]}
        first, second = sorted((left, right), key=order.index)
        if _meet(bends[left - 1], bends[right - 1], web, flanges[left], flanges[right]):
            yield (
                f"bends {left} and {right}: their flanges meet before both are at "
                f"their angles over a web of {web:.1f} mm: make it wider or a flange "
                "shorter"
            )
        elif bends[first - 1].angle >= SQUARE and flanges[first] > web:
            yield (
                f"bend {second}: the flange of bend {first} stands "
                f"{flanges[first]:.1f} mm high over a web of {web:.1f} mm: a flange "
                "longer than the web may meet the beam or the punch before the bend is "
                "done; try it with a paper strip in the machine (common practice, no "
                "source)"
            )


def _inside(flats: Sequence[float], bends: Sequence[Bend]) -> list[float]:
    """Give the legs to the corners where their inside faces would meet."""
    around = [None, *bends, None]
    return [
        flat
        + sum(
            setback_factor(each.angle) * each.radius
            for each in around[number : number + 2]
            if each
        )
        for number, flat in enumerate(flats)
    ]


def _meet(left: Bend, right: Bend, web: float, one: float, other: float) -> bool:
    """Tell whether two flanges over one web cross: a triangle closes over it."""
    base, end = math.radians(180 - left.angle), math.radians(180 - right.angle)
    top = math.pi - base - end
    if top <= 0:
        return False
    return one > web * math.sin(end) / math.sin(top) and other > web * math.sin(
        base
    ) / math.sin(top)
