"""The piece made last: rough, finish and accept sizes from what the others became."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from logbook.advice.gaps.contributor import Known
from logbook.advice.gaps.gap import Gap, Limits, chance_within
from logbook.advice.gaps.planned import FINISHING, builder_here
from logbook.advice.gaps.slopes import slopes_of
from logbook.advice.ground.lengths import Shown
from logbook.advice.ground.register import View
from logbook.advice.pieces.figures import Shop
from logbook.advice.pieces.usual import figure_key
from logbook.errors import BadInput
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.words import Trim
from logbook.shop.chains.formula import Formula
from logbook.shop.chains.suit import ROUGH_STEP, Side, Suit, Wanted, make_to_suit

SAWING = 0.2
"""± about 95 % of a rough cut to a line (mm); common practice, no source."""


ROUGH_INCHES = 0.002
"""Step of a rough size in inches; as fine as `ROUGH_STEP` in mm, and a round one."""


@dataclass(frozen=True, slots=True)
class Suited:
    """Sizes of the piece made last, in mm.

    `rough` is None where nothing may be taken off afterwards. `as_cut` is the
    chance that the rough piece is right already, `as_drawn` that of a piece made
    to the drawing; `drawn_gap` is what the drawn size leaves at the tightest.
    """

    sizes: Suit
    rough: float | None
    scatter: float
    as_cut: float
    as_drawn: float | None
    drawn_gap: float | None
    u: float


def suit(
    view: View,
    fit: Fit,
    gap: Gap,
    ones: Sequence[Known],
    wanted: Limits,
    shown: Shown,
) -> Suited | None:
    """Give the sizes of the piece made last; None where the formula bends in it.

    Raises:
        BadInput: the rooms move the gap further than its limits are apart.
    """
    last = next((one for one in ones if one.what is view.find(fit.made_last)), None)
    slope = gap.slopes[last.name] if last else 0.0
    if (
        last is None
        or not gap.linear
        or not slope
        or wanted.low is None
        or wanted.high is None
    ):
        return None
    by = abs(slope)
    low, high = (
        wanted.low / by - gap.shift[0] / by,
        wanted.high / by - gap.shift[1] / by,
    )
    if low > high and wanted.low <= wanted.high:
        raise _moves_too_far(gap, wanted.high - wanted.low)
    side = Side.INTO if slope < 0 else Side.AROUND
    rest = [(end - slope * last.low) / by for end in (gap.tight, gap.loose)]
    u, scatter = _others(fit, gap, ones, last) / by, _rough(view, last)
    step = _rough_step(shown)
    asked = Wanted(low, high, u, scatter, FINISHING, 0.0, side, step)
    found = _sizes(rest, asked, by)
    rough = found.rough if last.what.trim in {None, _TRIMMED[side]} else None
    room, ends = Limits(low, high), (min(rest), max(rest))
    at = rough if rough is not None else found.finish
    return Suited(
        found,
        rough,
        scatter,
        _chance(ends, at, scatter, u, room, side),
        _as_drawn(ends, last, u, room, side),
        _drawn_gap(gap, last, slope),
        u,
    )


def _moves_too_far(gap: Gap, wanted: float) -> BadInput:
    moves = gap.shift[1] - gap.shift[0]
    return BadInput(
        f"the rooms on record move this gap by {moves:.1f} mm, its limits are "
        f"{wanted:.1f} mm apart: no size keeps it in all of them; accepted: wider "
        "limits or closer rooms"
    )


_TRIMMED = {Side.INTO: Trim.SMALLER, Side.AROUND: Trim.LARGER}
"""What trimming the piece made last does to it, by the side the others are on."""


def _sizes(rest: Sequence[float], asked: Wanted, by: float) -> Suit:
    """Give the sizes for what the others leave, the gap as the formula counts it."""
    readings = rest if asked.side is Side.INTO else [-one for one in rest]
    found = make_to_suit(readings, asked)
    return replace(
        found, gap_tight=found.gap_tight * by, gap_loose=found.gap_loose * by
    )


def _others(fit: Fit, gap: Gap, ones: Sequence[Known], last: Known) -> float:
    """Give U of everything but the piece made last, set-up errors straight.

    The scale error of the instrument that also reads the last piece cancels; it
    counts where nothing says that one instrument reads both.
    """
    each = [gap.slopes[one.name] * one.half * 2 / one.coverage
            for one in ones if one is not last]  # fmt: skip
    tools = {one.read.instrument.id if one.read.instrument else ""
             for one in ones if one.read}  # fmt: skip
    same = fit.one_instrument or (last.read is not None and len(tools) == 1)
    scales = [] if same else [
        gap.slopes[one.name] * one.scale * 2 / math.sqrt(3)
        for one in ones if one is not last
    ]  # fmt: skip
    return math.hypot(*each, *scales) + gap.straight


def _rough_step(shown: Shown) -> float:
    """Give the step of a rough size (mm): round in the unit, no finer than is read."""
    inches = shown.unit in {"in", "thou"}
    return max(ROUGH_INCHES * 25.4 if inches else ROUGH_STEP, shown.step)


def _rough(view: View, last: Known) -> float:
    for process in last.part.process:
        if "saw" in process.lower() or "cut" in process.lower():
            builder = builder_here(view, last.piece)
            found = view.figure(figure_key(process, None, builder))
            if isinstance(found, Shop) and found.counts:
                return 2 * found.sd
    return SAWING


def _chance(
    ends: tuple[float, float], size: float, scatter: float, u: float, room: Limits,
    side: Side,
) -> float:  # fmt: skip
    sign = -1 if side is Side.INTO else 1
    sd = math.hypot(scatter / 2, u / 2)
    return chance_within(ends[0] + sign * size, ends[1] + sign * size, sd, room)


def _as_drawn(
    ends: tuple[float, float], last: Known, u: float, room: Limits, side: Side
) -> float | None:
    if last.free:
        return None
    half = last.half * 2 / last.coverage
    return _chance(ends, last.nominal, half, u, room, side)


def _drawn_gap(gap: Gap, last: Known, slope: float) -> float | None:
    """Give the tightest gap that a piece of nominal size would leave."""
    return None if last.free else gap.tight + slope * (last.nominal - last.low)


def centred(
    formula: Formula, ones: Sequence[Known], last: str, wanted: Limits
) -> float | None:
    """Give the size of the last dimension that puts the gap in its middle.

    None where the formula bends, or nothing says where the middle is.
    """
    if wanted.low is None or wanted.high is None or not ones:
        return None
    start = (ones[0].low + ones[0].high) / 2
    sizes = {one.name: (one.low + one.high) / 2 for one in ones} | {last: start}
    found = slopes_of(formula, sizes)
    slope = found.slopes[last]
    if not found.linear or not slope:
        return None
    return start + ((wanted.low + wanted.high) / 2 - found.at(sizes)) / slope


def inward(low: float, high: float, step: float) -> tuple[float, float]:
    """Round an accept range to an instrument's steps, never outward.

    A twentieth of a step, which nobody can read, moves no end by a whole one.
    """
    return (
        math.ceil(round(low / step, 1)) * step,
        math.floor(round(high / step, 1)) * step,
    )
