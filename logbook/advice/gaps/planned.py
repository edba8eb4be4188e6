"""How far a size that is not read yet may be off, and one that is finished by hand.

The shop's own figures count, then the default of the process; drawn limits only where
the drawing gives them itself and they are narrower. A general tolerance is never taken
for what a process does. Lengths in mm.
"""

from __future__ import annotations

import math
from dataclasses import replace

from logbook.advice.gaps.contributor import Known, Unknown
from logbook.advice.ground.register import View
from logbook.advice.pieces.contours import contour_sign
from logbook.advice.pieces.figures import Shop, features, made_on
from logbook.advice.pieces.usual import figure_key, usual
from logbook.errors import BadInput
from logbook.records.kinds.design import Characteristic, Feature, Part
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.definition import Dimension
from logbook.records.together.whose_shop import builder_of

DRAWN = 3.0
"""Standard deviations from the middle to a drawn limit."""
FINISHING = 0.05
"""± about 95 % of filing to a reading (mm); common practice, no source."""


def planned(
    view: View,
    name: str,
    part: Part,
    piece: Piece | None,
    drawn: Dimension,
    before: str = "",
) -> Known:
    """Give a size not read yet from its nominal and how far such a size is off.

    `before` says what was read before a rework, which counts no more.

    Raises:
        BadInput: there is no nominal, or nothing says how far it may be off.
    """
    what = drawn.characteristic
    if drawn.nominal is None:
        raise BadInput("neither measured nor drawn; accepted: a reading or a size")
    nominal = float(drawn.nominal.to("mm"))
    inputs = (what.ref, *((piece.ref,) if piece else ()))
    by_process = _by_process(view, what, piece)
    by_limits = _by_limits(drawn)
    if by_limits and (by_process is None or by_limits[1] <= by_process[1]):
        middle, half, said = by_limits
        coverage, source = DRAWN, ""
    elif by_process:
        off, half, said, source = by_process
        middle, coverage = nominal + off, 2.0
    else:
        raise BadInput(
            "not measured, no limits drawn, and no process known; accepted: a reading, "
            "limits, or the process that makes it"
        )
    since = " since the rework" if before else ""
    text = f"{part.title} {what.title} not measured{since}: {said}"
    return Known(
        name, what, part, piece, nominal, middle, middle, half, coverage, None, text,
        inputs, source, before=before,
    )  # fmt: skip


def _by_limits(drawn: Dimension) -> tuple[float, float, str] | None:
    """Give middle and half width of the limits that the drawing itself gives."""
    if drawn.characteristic.limits_from or drawn.lower is None or drawn.upper is None:
        return None
    low, high = float(drawn.lower.to("mm")), float(drawn.upper.to("mm"))
    if low > high:
        raise BadInput(
            f"the lower limit {drawn.lower} is above the upper {drawn.upper}; "
            "accepted: the lower one below"
        )
    return (low + high) / 2, (high - low) / 2, f"limits drawn {low:g} to {high:g} mm"


def _by_process(
    view: View, what: Characteristic, piece: Piece | None
) -> tuple[float, float, str, str] | None:
    """Give offset, ± about 95 %, words and source for the operations that make it."""
    made = [
        replace(one, machine=made_on(view, one, piece)) if piece else one
        for one in features(view, what)
    ]
    builder = builder_here(view, piece)
    each = [
        _operation(view, one, contour_sign(one.process, what), builder) for one in made
    ]
    if not made or any(one is None for one in each):
        return None
    parts = [one for one in each if one is not None]
    off = math.fsum(one[0] for one in parts)
    half = math.hypot(*(one[1] for one in parts))
    sources = dict.fromkeys(one[3] for one in parts if one[3])
    return off, half, "; ".join(one[2] for one in parts), "; ".join(sources)


def _operation(
    view: View, made: Feature, sign: int, builder: str
) -> tuple[float, float, str, str] | None:
    """Give what one operation does to a size; `sign` is how a kerf moves it."""
    count = max(1, made.count)
    width = count if made.shared else math.sqrt(count)
    times = f"{count} × " if count > 1 else ""
    shop = _shop(view, made, builder)
    if shop is not None:
        said = (
            f"{times}{made.process}, own figure {shop.offset:+.2f} "
            f"±{2 * shop.sd:.2f} mm from {shop.count}"
        )
        sure = 2 * math.hypot(width * shop.sd, count * shop.error)
        return sign * count * shop.offset, sure, said, "the shop's own pieces"
    default = usual(made.process)
    if default is None:
        return None
    said = f"{times}{default.process}, usually ±{default.scatter:g} mm"
    return sign * count * default.offset, width * default.scatter, said, default.source


def builder_here(view: View, piece: Piece | None) -> str:
    """Give in whose shop a piece is made, or is to be: that of the build in hand."""
    if piece is not None and piece.build is not None:
        return builder_of(view, piece)
    return view.build.builder if view.build else ""


def _shop(view: View, made: Feature, builder: str) -> Shop | None:
    """Give the shop's figure of a process; where a machine is named, of that alone."""
    found = view.figure(figure_key(made.process, made.machine, builder))
    return found if isinstance(found, Shop) and found.counts else None


def by_hand(one: Unknown, size: float) -> Known:
    """Give a dimension that is brought to a size by hand, whatever makes it."""
    said = f"{one.part.title} {one.what.title} made to suit, ±{FINISHING:g} mm"
    return Known(
        one.name, one.what, one.part, None, size, size, size, FINISHING, 2.0, None,
        said, (one.what.ref,), free=one.nominal is None, before=one.before,
    )  # fmt: skip


def finishing(one: Known) -> Known:
    """Give a dimension that is finished by hand to a reading, at its nominal."""
    said = f"{one.part.title} {one.what.title} filed to size, ±{FINISHING:g} mm"
    return replace(
        one, low=one.nominal, high=one.nominal, half=FINISHING, coverage=2.0, said=said
    )
