"""What a caliper shows of a size: by that it is found too, 3/16 in by 4.76 mm.

A number typed with as many digits behind the mark as its unit is read to finds every
number that shows so: of 0.01 everywhere, of 0.001 in inches. A length is shown in
millimetres and in inches, whichever it was written in; every other number in the unit
it was written in. Halfway between two it shows as either.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from logbook.units import find_unit

READ_TO = {"in": 3}
"""Digits behind the mark a unit is read to, where not as many as the others."""
HUNDREDTHS = 2
_IN_TURN = {"mm": "in", "in": "mm"}


def digits(unit: str) -> int:
    """Give how many digits behind the mark a unit is read to."""
    return READ_TO.get(unit, HUNDREDTHS)


def shown_in(value: Fraction, unit: str) -> Iterator[tuple[str, Fraction]]:
    """Give each unit a number is shown in, with its value in that.

    `unit` is the one it was written in; empty where in none.
    """
    yield unit, value
    other = _IN_TURN.get(unit)
    if other:
        yield other, value * _factor(unit, other)


@lru_cache(maxsize=8)
def _factor(unit: str, other: str) -> Fraction:
    return find_unit(unit).factor / find_unit(other).factor


def as_shown(value: Fraction, places: int) -> tuple[Fraction, ...]:
    """Give what is read of a value to so many digits; nothing where that is all of it.

    >>> [str(one) for one in as_shown(Fraction(47625, 10000), 2)]
    ['119/25']
    """
    scale, whole = 10**places, value.denominator
    low, rest = divmod(value.numerator * scale, whole)
    if not rest:
        return ()
    near = [low + at for at in (0, 1) if abs(2 * (at * whole - rest)) <= whole]
    return tuple(Fraction(one, scale) for one in near)
