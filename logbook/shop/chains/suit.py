"""A piece made last, to suit what is there: rough, finish and accept sizes.

The mate is read at named places. The tightest place governs whether the piece
goes in, the loosest how much it rattles; places are never averaged. Material
comes off on one side only, so the rough size is the one from which even the
worst cut leaves something to take, or a piece that is already right.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from statistics import NormalDist

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import POSITIVE, Given, Input, Kind, at_least
from logbook.shop.measuring.slips import slip_said
from logbook.shop.sums import Sum

ROUGH_STEP = 0.05
"""A scribed line is not set finer than this (mm)."""


class Side(StrEnum):
    """What taking material away does to the size of the piece."""

    INTO = "fits into"
    AROUND = "fits around"


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted of a piece to be made last; mm.

    `uncertainty` is the expanded U of the readings, counted once because one
    instrument for mate and piece cancels its scale error. `rough_scatter` and
    `finish_scatter` are ± about 95 % of the two processes. `coat` is what
    coatings still to come will take from the gap, all faces together. The rough
    size is set in steps of `rough_step`.
    """

    gap_low: float
    gap_high: float
    uncertainty: float
    rough_scatter: float
    finish_scatter: float
    coat: float = 0.0
    side: Side = Side.INTO
    rough_step: float = ROUGH_STEP


@dataclass(frozen=True, slots=True)
class Suit:
    """Sizes of the piece in mm.

    `possible` is False where no one size suits all places; the accept range is
    then upside down and by how much it is says how far the places disagree.
    """

    rough: float
    finish: float
    accept_low: float
    accept_high: float
    tightest: float
    loosest: float
    gap_tight: float
    gap_loose: float
    chance: float

    @property
    def possible(self) -> bool:
        """Whether one size suits all places."""
        return self.accept_low <= self.accept_high

    @property
    def short_by(self) -> float:
        """How much wider the wanted gap would have to be."""
        return max(0.0, self.accept_low - self.accept_high)


def make_to_suit(readings: Sequence[float], wanted: Wanted) -> Suit:
    """Work out the sizes of a piece for a mate with these readings, in mm.

    Into an opening: accept from max − gap_high + U to min − gap_low − U,
    finish where `_aim` says. Around a bar the same mirrored.

    Raises:
        BadInput: no readings, or a gap with its limits the wrong way round.
    """
    if not readings:
        raise BadInput("the mate was read nowhere; accepted: a reading at each place")
    if wanted.gap_low > wanted.gap_high:
        raise BadInput(
            f"the gap is wanted from {wanted.gap_low:g} to {wanted.gap_high:g} mm; "
            "accepted: the smaller figure first"
        )
    if wanted.side is Side.INTO:
        return _into(list(readings), wanted)
    # Around a bar is into an opening with every length turned round.
    turned = _into([-reading for reading in readings], wanted)
    return Suit(
        -turned.rough,
        -turned.finish,
        -turned.accept_high,
        -turned.accept_low,
        -turned.tightest,
        -turned.loosest,
        turned.gap_tight,
        turned.gap_loose,
        turned.chance,
    )


def _into(readings: list[float], wanted: Wanted) -> Suit:
    tight, loose = min(readings), max(readings)
    low = loose - wanted.gap_high - wanted.coat + wanted.uncertainty
    high = tight - wanted.gap_low - wanted.coat - wanted.uncertainty
    finish = _aim(tight, low, high, wanted)
    rough = _up_to_step(max(low + wanted.rough_scatter, finish), wanted.rough_step)
    slack = wanted.coat + finish
    return Suit(
        rough, finish, low, high, tight, loose, tight - slack, loose - slack,
        _chance(tight - slack, loose - slack, wanted),
    )  # fmt: skip


_HAIR = 1e-9
"""For the last bits of a float: exactly at a limit is at it."""


HALFWAY_FROM = Fraction(1, 4)
"""Share of a gap's room by which places differ when halfway between them is taken.

The rest is left for what measuring and filing are good to (common practice, no
source). Any nearer, the tightest place still leads to a size that does at the loosest.
"""


def _aim(tight: float, low: float, high: float, wanted: Wanted) -> float:
    """Give the finish size: the middle of the gap at the tightest place.

    Where places are as far apart as `HALFWAY_FROM` says, or that is nearer to an end
    of the accept range than finishing scatters, the middle of the range: what is
    filed past the smallest right size is lost.
    """
    room = wanted.gap_high - wanted.gap_low
    # The accept range is the room less the guard bands and what places differ by.
    apart = room - 2 * wanted.uncertainty - (high - low)
    size = tight - (wanted.gap_low + wanted.gap_high) / 2 - wanted.coat
    inside = wanted.finish_scatter - _HAIR
    near = apart < room * HALFWAY_FROM - _HAIR
    if near and low + inside <= size <= high - inside:
        return size
    return (low + high) / 2


def _up_to_step(size: float, step: float) -> float:
    return math.ceil(round(size / step, 6)) * step


def _chance(tight: float, loose: float, wanted: Wanted) -> float:
    """Chance that both the tight and the loose gap are within the wanted one.

    Piece and readings miss together: one normal error moves both gaps.
    """
    sd = math.hypot(wanted.finish_scatter / 2, wanted.uncertainty / 2)
    room = (wanted.gap_low - tight, wanted.gap_high - loose)
    if room[0] > room[1]:
        return 0.0
    if not sd:
        return 1.0 if room[0] <= 0 <= room[1] else 0.0
    below = NormalDist(0, sd).cdf
    return below(room[1]) - below(room[0])


def _compute(given: Given) -> Answer:
    wanted = Wanted(
        given.number("gap_low"), given.number("gap_high"),
        given.number("uncertainty"), given.number("rough_scatter"),
        given.number("finish_scatter"), given.number("coat"),
        Side(given.word("side")),
    )  # fmt: skip
    found = make_to_suit(given.numbers("readings"), wanted)
    slip = slip_said(given.exacts("readings"), "mm")
    return Answer(
        _sizes(found) if found.possible else _no_size(found),
        assumptions=_assumed(given),
        warnings=(*slip, *_warned(found, wanted)),
        alarms=slip,
    )


def _sizes(found: Suit) -> tuple[Result, ...]:
    return (
        Result("possible", found.possible, "", 0, "one size suits all places"),
        Result("rough", found.rough, "mm", 2, "saw or cut to this first"),
        Result("finish", found.finish, "mm", 2, "file or finish to this"),
        Result("accept_low", found.accept_low, "mm", 2, "smallest right size"),
        Result("accept_high", found.accept_high, "mm", 2, "largest right size"),
        Result("tightest", found.tightest, "mm", 2, "the place that governs entry"),
        Result("loosest", found.loosest, "mm", 2, "the place with most play"),
        Result("gap_at_tightest", found.gap_tight, "mm", 2, "left at finish size"),
        Result("gap_at_loosest", found.gap_loose, "mm", 2, "left at finish size"),
        Result("chance", 100 * found.chance, "%", 0,
               "of landing in the wanted gap when finished so"),
    )  # fmt: skip


def _no_size(found: Suit) -> tuple[Result, ...]:
    """Give no size to cut to where none suits: somebody would cut to it."""
    return (
        Result("possible", found.possible, "", 0, "one size suits all places"),
        Result("short_by", found.short_by, "mm", 2, "how much more the gap must allow"),
        Result("tightest", found.tightest, "mm", 2, "the place that governs entry"),
        Result("loosest", found.loosest, "mm", 2, "the place with most play"),
    )


def _assumed(given: Given) -> tuple[str, ...]:
    return (
        (
            "one instrument reads mate and piece, so its scale error cancels and U is "
            "counted once"
        ),
        (
            f"rough cut good to ±{given.typed('rough_scatter')}, finishing to "
            f"±{given.typed('finish_scatter')} (about 95 %); the shop's own figures win"
        ),
        (
            "material comes off only: rough is set to the next 0.05 mm from which the "
            "worst cut is still not past the accept range"
        ),
    )


def _warned(found: Suit, wanted: Wanted) -> tuple[str, ...]:
    offer = "Offering it up and fitting it by hand is a full answer too."
    if found.possible:
        return (offer,)
    apart = abs(found.loosest - found.tightest)
    room = max(0.0, wanted.gap_high - wanted.gap_low - 2 * wanted.uncertainty)
    return (
        (
            f"No one size suits: the places differ by {apart:.2f} mm, the gap and U "
            f"leave {room:.2f} mm. "
            "Put right what is out of square instead of cutting to it, or fit by hand."
        ),
        offer,
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        name="make-to-suit",
        also=("made-to-suit", "fit-last-piece", "saw-finish-accept", "opening", "suit"),
        title="Saw, finish and accept sizes of a piece made last, to suit",
        inputs=(
            Input("readings", "the mate as read, one for each place", "mm",
                  accept=POSITIVE, many=True, also=("opening", "places")),
            Input("uncertainty", "expanded uncertainty U of a reading", "mm",
                  accept=at_least(0), also=("U", "instrument-u", "instrument")),
            Input("gap_low", "smallest gap wanted, both sides together", "mm",
                  also=("gap-min",)),
            Input("gap_high", "largest gap wanted, both sides together", "mm",
                  also=("gap-max",)),
            Input("side", "whether the piece fits into the mate or around it",
                  kind=Kind.CHOICE, choices=tuple(Side), default="fits into",
                  words={"into": "fits into", "inside": "fits into",
                         "around": "fits around", "outside": "fits around"}),
            Input("rough_scatter", "± about 95 % of the rough cut", "mm",
                  accept=at_least(0), default="0.2 mm", also=("saw-scatter",)),
            Input("finish_scatter", "± about 95 % of the finishing", "mm",
                  accept=at_least(0), default="0.05 mm"),
            Input("coat", "what coatings still to come take from the gap", "mm",
                  accept=at_least(0), default="0 mm"),
        ),
        compute=_compute,
        formula="into: accept from max − gap-high + U to min − gap-low − U; finish = "
        "min − middle of the gap where places differ by less than a quarter of what "
        "the gap leaves and that is at least the finish scatter inside the accept "
        "range, else the middle of that range; rough = accept-low + rough "
        "scatter, up to the next 0.05 mm; around: the same with max and min, − and + "
        "changed round",
        source="arithmetic; guard band U as ISO 14253-1; scatter of hand sawing and "
        "filing: common practice, no source",
        how="computed",
        caution="Measure where it will sit, clamped as it will be; a lean reads as a "
        "difference between places.",
        example={"readings": "178.60, 178.65, 178.62, 178.68", "uncertainty": "0.04 mm",
                 "gap_low": "0.1 mm", "gap_high": "0.5 mm"},
    ),
)  # fmt: skip
