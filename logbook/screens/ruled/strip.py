"""Where a value stands between its limits, as a strip with the limits at its ends."""

from __future__ import annotations

from fractions import Fraction

from logbook.quantity import Quantity
from logbook.records.sizes.definition import NO_LIMITS, Dimension

LEAST = 8
"""Fewer columns between the limits than this show nothing."""


def strip(drawn: Dimension | None, value: Quantity | None, width: int) -> str:
    """Draw the strip in at most `width` columns; words where there are no limits.

    After it stands the general tolerance the limits are by, if they are by one.
    """
    if drawn is None or not drawn.has_limits:
        return NO_LIMITS
    low = str(drawn.lower) if drawn.lower else "no lower limit"
    high = str(drawn.upper) if drawn.upper else "no upper limit"
    high += f" by {drawn.limits_by}" if drawn.limits_by else ""
    room = width - len(low) - len(high) - 6
    if drawn.lower is None or drawn.upper is None or room < LEAST:
        return f"{low} … {high}"
    row = ["─"] * room
    before = after = " "
    if value is not None and value.dimension == drawn.lower.dimension:
        share = place(drawn.lower, drawn.upper, value)
        if share < 0:
            before = "◂"
        elif share > 1:
            after = "▸"
        else:
            row[round(share * (room - 1))] = "●"
    return f"{low} {before}├{''.join(row)}┤{after} {high}"


def place(lower: Quantity, upper: Quantity, value: Quantity) -> Fraction:
    """Give where a value lies: 0 at the lower limit, 1 at the upper."""
    low, high = lower.to(upper.unit), upper.value
    if high == low:
        at = value.to(upper.unit)
        return Fraction(1, 2) if at == low else Fraction(2 if at > low else -1)
    return (value.to(upper.unit) - low) / (high - low)
