"""The limits that hold of a size: those drawn, else the general tolerance invoked.

The one home for both, in the unit of the size. ISO 2768-1 says nothing of a size
unless the project's tolerance statement invokes it, and nothing of what it does not
tabulate.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from logbook.decimal_text import plain_number
from logbook.errors import BadInput
from logbook.quantity import Quantity, quantity
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Project
from logbook.records.sizes.definition import Dimension, drawn_text
from logbook.records.together.snapshot import Snapshot
from logbook.shop.fitting.limits import linear, radius
from logbook.units import convert

_ISO_2768 = re.compile(r"ISO 2768(?:-1)?-([fmcv])[HKL]?")


_EDGE = re.compile(
    r"(?i)\b(?:radius|radii|chamfers?|fillets?|rounding|broken edges?|edge breaks?)\b"
)
"""Names of radii and chamfers, which ISO 2768-1 tabulates apart, in its Table 2."""


def limits_held(project: Project, drawn: Dimension) -> Dimension:
    """Give a dimension with the limits that hold, drawn or general."""
    either_side = general_deviation(project, drawn)
    if either_side is None or drawn.nominal is None:
        return drawn
    middle = drawn.nominal.to("mm")
    return replace(
        drawn,
        lower=_in_unit_of(drawn.nominal, middle - either_side),
        upper=_in_unit_of(drawn.nominal, middle + either_side),
        general=project.tolerance.strip(),
    )


_INCHES = frozenset({"in", "ft"})
_INCH_DIGITS = 3
"""Decimal places of an inch that a tolerance tabulated in hundredths of a mm is good
to."""


def _in_unit_of(size: Quantity, value: Fraction) -> Quantity:
    """Give so many mm in the unit of a size; exact, inches shown to thousandths."""
    if size.unit not in _INCHES:
        return quantity(convert(value, "mm", size.unit), size.unit)
    held = convert(value, "mm", size.unit)
    text = f"{plain_number(held, _INCH_DIGITS)} {size.unit}"
    return Quantity(text, held, size.unit, Fraction(1, 10**_INCH_DIGITS))


def as_held(snapshot: Snapshot, drawn: Dimension) -> Dimension:
    """Give a dimension with the limits a piece of it is held to.

    No general tolerance holds of what is made last, to suit a gap: the gap decides.
    """
    item = drawn.characteristic
    for gap in snapshot.mentions(item, Fit):
        if snapshot.find(gap.made_last) is item:
            return drawn
    return limits_held(snapshot.project, drawn)


def _words(drawn: Dimension) -> str:
    item = drawn.characteristic
    return f"{item.title} {item.name}".replace("_", " ")


def general_deviation(project: Project, drawn: Dimension) -> Fraction | None:
    """Give what the general tolerance allows either side of a length, in mm.

    None where the drawing gives limits, or the tolerance says nothing of it.
    """
    named = _ISO_2768.fullmatch(project.tolerance.strip())
    size = drawn.nominal
    own = drawn.to_suit or drawn.lower is not None or drawn.upper is not None
    if own or named is None or size is None or size.dimension != "length":
        return None
    rule = radius if _EDGE.search(_words(drawn)) else linear
    try:
        return rule(size.to("mm"), named[1]).deviation
    except BadInput:
        return None


def held_words(project: Project, drawn: Dimension) -> str:
    """Say the limits that hold, in short; empty where there are none."""
    either_side = general_deviation(project, drawn)
    if either_side is not None and drawn.nominal is not None:
        shown = _in_unit_of(drawn.nominal, either_side)
        return f"±{shown} ({project.tolerance.strip()})"
    lower, upper = drawn.lower, drawn.upper
    if lower is None and upper is None:
        return ""
    source = drawn.characteristic.limits_from
    said = f" ({source})" if source else ""
    if lower is None:
        return f"{upper} or less{said}"
    words = f"{lower} or more" if upper is None else f"{lower} to {upper}"
    return f"{words}{said}"


def held_text(held: Dimension) -> str:
    """Give nominal and the limits that hold, with the general tolerance they are by.

    `held` is a dimension as `as_held` or `limits_held` gives it.
    """
    if not held.limits_by:
        return drawn_text(held)
    either_side = _either_side(held)
    if either_side is None:
        return f"{drawn_text(held)} by {held.limits_by}"
    return f"{held.nominal} ±{either_side} by {held.limits_by}"


def _either_side(held: Dimension) -> Quantity | None:
    """Give how far both limits are from the nominal; None where that is not one."""
    size, lower, upper = held.nominal, held.lower, held.upper
    if size is None or lower is None or upper is None:
        return None
    same = size.dimension == lower.dimension == upper.dimension == "length"
    if not same or upper.to("mm") - size.to("mm") != size.to("mm") - lower.to("mm"):
        return None
    return _in_unit_of(size, upper.to("mm") - size.to("mm"))
