"""The limits that hold of a size: those drawn, else the general tolerance invoked.

The one home for both. ISO 2768-1 says nothing of a size unless the project's
tolerance statement invokes it, and nothing of what it does not tabulate.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from logbook.errors import BadInput
from logbook.quantity import quantity
from logbook.records.model import Project
from logbook.records.state import Dimension, drawn_text
from logbook.shop.limits import linear

_ISO_2768 = re.compile(r"ISO 2768(?:-1)?-([fmcv])[HKL]?")


def limits_held(project: Project, drawn: Dimension) -> Dimension:
    """Give a dimension with the limits that hold, drawn or general."""
    either_side = general_deviation(project, drawn)
    if either_side is None or drawn.nominal is None:
        return drawn
    middle = drawn.nominal.to("mm")
    return replace(
        drawn,
        lower=quantity(middle - either_side, "mm"),
        upper=quantity(middle + either_side, "mm"),
    )


def general_deviation(project: Project, drawn: Dimension) -> Fraction | None:
    """Give what the general tolerance allows either side of a length, in mm.

    None where the drawing gives limits, or the tolerance says nothing of it.
    """
    named = _ISO_2768.fullmatch(project.tolerance.strip())
    size = drawn.nominal
    own = drawn.to_suit or drawn.lower is not None or drawn.upper is not None
    if own or named is None or size is None or size.dimension != "length":
        return None
    try:
        return linear(size.to("mm"), named[1]).deviation
    except BadInput:
        return None


def held_words(project: Project, drawn: Dimension) -> str:
    """Say the limits that hold, in short; empty where there are none."""
    either_side = general_deviation(project, drawn)
    if either_side is not None:
        return f"±{float(either_side):g} mm ({project.tolerance.strip()})"
    lower, upper = drawn.lower, drawn.upper
    if lower is None and upper is None:
        return ""
    source = drawn.characteristic.limits_from
    said = f" ({source})" if source else ""
    if lower is None:
        return f"{upper} or less{said}"
    words = f"{lower} or more" if upper is None else f"{lower} to {upper}"
    return f"{words}{said}"


def held_text(project: Project, drawn: Dimension) -> str:
    """Give nominal and the limits that hold, or say that there are none."""
    if general_deviation(project, drawn) is None:
        return drawn_text(drawn)
    return f"{drawn.nominal} {held_words(project, drawn)}"
