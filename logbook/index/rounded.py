"""What a caliper shows of a size: by that it is found too, 3/16 in by 4.76 mm.

A number typed with as many digits behind the mark as its unit is read to finds every
number that shows so: of 0.01 everywhere, of 0.001 in inches. A length is shown in
millimetres and in inches, whichever it was written in; every other number in the unit
it was written in. Halfway between two it shows as either. What is shown is counted in
the last digit, whole numbers all through: each text that is looked at comes by here.
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


def shown_in(value: Fraction, unit: str) -> Iterator[tuple[str, tuple[int, ...]]]:
    """Give each unit a number is shown in, with what is read there, in its last digit.

    `unit` is the one it was written in; empty where in none. Nothing is read where
    that is all of the number.

    >>> list(shown_in(Fraction(3, 16), "in"))
    [('in', (187, 188)), ('mm', (476,))]
    """
    top, whole = value.numerator, value.denominator
    yield unit, _as_shown(top * 10 ** digits(unit), whole)
    other = _IN_TURN.get(unit)
    if other:
        up, down = _turned(unit, other)
        yield other, _as_shown(top * up, whole * down)


@lru_cache(maxsize=8)
def _turned(unit: str, other: str) -> tuple[int, int]:
    """Give what turns a number of one unit into last digits of another."""
    factor = find_unit(unit).factor / find_unit(other).factor * 10 ** digits(other)
    return factor.numerator, factor.denominator


def _as_shown(top: int, whole: int) -> tuple[int, ...]:
    low, rest = divmod(top, whole)
    if not rest:
        return ()
    if 2 * rest == whole:
        return (low, low + 1)
    return (low,) if 2 * rest < whole else (low + 1,)
