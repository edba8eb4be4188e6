"""A layout of blanks in stock, and whether it is one: checked cut by cut.

Sizes are whole micrometres, so that nothing is lost to rounding.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations


@dataclass(frozen=True, slots=True)
class Blank:
    """A rectangle in µm; `length` lies along the grain."""

    length: int
    width: int


@dataclass(frozen=True, slots=True)
class Place:
    """A blank laid in a stock: corner and sides in µm as they lie there."""

    blank: int
    stock: int
    x: int
    y: int
    length: int
    width: int


@dataclass(frozen=True, slots=True)
class Cutting:
    """How the stock is cut: kerf and margin in µm."""

    kerf: int
    margin: int
    grain_kept: bool
    straight_through: bool


def faults(
    places: Sequence[Place],
    stocks: Sequence[Blank],
    blanks: Sequence[Blank],
    cutting: Cutting,
) -> list[str]:
    """Check a layout from scratch: sizes, grain, margins, kerf, through cuts."""
    found = []
    if len({place.blank for place in places}) != len(places):
        found.append("a blank is laid twice")
    for place in places:
        found += _place_faults(place, stocks[place.stock], blanks[place.blank], cutting)
    for one, other in combinations(places, 2):
        if one.stock == other.stock and not _apart(one, other, cutting.kerf):
            found.append(f"blanks {one.blank + 1} and {other.blank + 1} share the cut")
    if cutting.straight_through and not found:
        for number in range(len(stocks)):
            laid = [place for place in places if place.stock == number]
            if not _cuts_through(laid):
                found.append(f"stock {number + 1} cannot be cut straight through")
    return found


def _place_faults(
    place: Place, stock: Blank, blank: Blank, cutting: Cutting
) -> list[str]:
    found = []
    turned = (place.length, place.width) != (blank.length, blank.width)
    if turned and (place.width, place.length) != (blank.length, blank.width):
        found.append(f"blank {place.blank + 1} has another size")
    elif turned and cutting.grain_kept:
        found.append(f"blank {place.blank + 1} lies across the grain")
    edge = cutting.margin
    if min(place.x, place.y) < edge or (
        place.x + place.length > stock.length - edge
        or place.y + place.width > stock.width - edge
    ):
        found.append(f"blank {place.blank + 1} reaches into the margin")
    return found


def _apart(one: Place, other: Place, kerf: int) -> bool:
    return (
        one.x + one.length + kerf <= other.x
        or other.x + other.length + kerf <= one.x
        or one.y + one.width + kerf <= other.y
        or other.y + other.width + kerf <= one.y
    )


def _cuts_through(places: Sequence[Place]) -> bool:
    """Tell whether cuts from edge to edge can separate all blanks."""
    if len(places) < 2:
        return True
    for along in (True, False):
        ordered = sorted(places, key=lambda place: _ends(place, along=along))
        reach = 0
        for count, place in enumerate(ordered):
            low, high = _ends(place, along=along)
            if count and low >= reach:
                first, rest = ordered[:count], ordered[count:]
                return _cuts_through(first) and _cuts_through(rest)
            reach = max(reach, high)
    return False


def _ends(place: Place, *, along: bool) -> tuple[int, int]:
    if along:
        return place.x, place.x + place.length
    return place.y, place.y + place.width
