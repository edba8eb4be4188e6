"""Sheet gauges: a gauge is the name of a thickness, and differs by metal."""

from __future__ import annotations

from fractions import Fraction

from logbook.errors import BadInput
from logbook.quantity import Metal
from logbook.units import INCH_MM


def gauge_thickness(metal: Metal, gauge: int) -> Fraction:
    """Give the table thickness of a gauge in millimetres.

    Raises:
        BadInput: the metal's table has no such gauge.
    """
    from logbook.shop.tables import table

    rows = table("gauges", metal.value)
    try:
        row = rows.at("gauge", gauge)
    except BadInput:
        numbers = [int(row.number("gauge")) for row in rows.rows]
        raise BadInput(
            f"{gauge} ga {metal.value} is not in the table ({rows.title}); "
            f"accepted: {min(numbers)} to {max(numbers)} ga"
        ) from None
    return Fraction(str(row.cells["inch"])) * INCH_MM
