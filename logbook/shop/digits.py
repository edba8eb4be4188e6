"""How many decimals a figure is shown with: those it is good to."""

from __future__ import annotations

import math
from fractions import Fraction


def spread_places(spread: float, without: int = 6) -> int:
    """Decimals that show two digits of a spread; `without` one where it is 0."""
    return 1 - math.floor(math.log10(spread)) if spread > 0 else without


def decimals(value: Fraction) -> int:
    """Decimals a reading has, at most 6; a fraction of an inch shows 4."""
    for count in range(7):
        if (value * 10**count).denominator == 1:
            return count
    return 4
