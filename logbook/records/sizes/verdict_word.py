"""How a value stands to its drawing, in the words every screen and sheet uses."""

from __future__ import annotations

from fractions import Fraction

from logbook.quantity import Absent, Quantity
from logbook.records.sizes.definition import (
    NO_LIMITS,
    OFF_DRAWING,
    TOO_CLOSE,
    WITHIN,
    Dimension,
)
from logbook.shop.fitting.decision import Limits, decide


def judged(
    drawn: Dimension | None, value: Quantity | Absent, doubt: Quantity | None
) -> str:
    """Say in shop words how a value stands to its drawing.

    Within the instrument's uncertainty of a limit it is too close to call.
    """
    if isinstance(value, Absent):
        return value.value
    if drawn is None or not drawn.has_limits:
        return NO_LIMITS
    unit = (drawn.lower or drawn.upper or value).unit
    if value.dimension != (drawn.lower or drawn.upper or value).dimension:
        return f"drawn in {unit}"
    lower = drawn.lower.to(unit) if drawn.lower else None
    upper = drawn.upper.to(unit) if drawn.upper else None
    width = doubt.to(unit) if doubt else Fraction(0)
    found = decide(value.to(unit), Limits(lower, upper), width, None)
    if found.too_close:
        return TOO_CLOSE
    return WITHIN if Limits(lower, upper).hold(value.to(unit)) else OFF_DRAWING
