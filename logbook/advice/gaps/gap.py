"""A gap worked out: now, worst case, root sum of squares, chance, and whose doubt.

The tightest place governs entry, the loosest looseness. Readings of one
instrument share its scale error; errors of one set-up add straight; coatings
still to come, heat and moist air move the gap. Lengths in mm.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import NormalDist

from logbook.advice.gaps.contributor import Known
from logbook.advice.gaps.gap_shift import shift_of
from logbook.advice.gaps.slopes import Slopes, slopes_of, values
from logbook.advice.ground.register import View
from logbook.errors import BadInput
from logbook.records.kinds.assembling import Fit
from logbook.shop.chains.evaluation import exact, sampled
from logbook.shop.chains.formula import Formula
from logbook.shop.chains.spread import Contributor, Share, shares
from logbook.shop.chains.trials import Trials, try_out

TRIALS = 200_000


MOST_CORNERS = 10


@dataclass(frozen=True, slots=True)
class Limits:
    """What is wanted of a gap, in mm; None is no limit."""

    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class Gap:
    """A gap worked out; lengths in mm.

    `tight` and `loose` are the gap where it is tightest and loosest; `shift` how
    far the rooms move it, down and up; `parts` names contributors with their
    share of the doubt (0 to 1).
    """

    tight: float
    loose: float
    worst_low: float
    worst_high: float
    rss: float
    sd: float
    chance: float | None
    slopes: Mapping[str, float]
    parts: tuple[tuple[str, float], ...]
    shift: tuple[float, float]
    straight: float
    coat: float
    assumed: tuple[str, ...]
    linear: bool

    @property
    def rss_low(self) -> float:
        """The tightest gap less the root sum of squares."""
        return self.tight - self.rss

    @property
    def rss_high(self) -> float:
        """The loosest gap and the root sum of squares."""
        return self.loose + self.rss


def limits_of(fit: Fit) -> Limits:
    """Give the limits of a gap in mm.

    Raises:
        BadInput: they are no lengths, or the wrong way round.
    """
    low = float(fit.lower_limit.to("mm")) if fit.lower_limit else None
    high = float(fit.upper_limit.to("mm")) if fit.upper_limit else None
    if low is not None and high is not None and low > high:
        raise BadInput(
            f"the gap is wanted from {fit.lower_limit} to {fit.upper_limit}; "
            "accepted: the smaller first"
        )
    return Limits(low, high)


def work_gap(
    view: View, fit: Fit, formula: Formula, ones: Sequence[Known], wanted: Limits
) -> Gap:
    """Work out a gap from what its dimensions are known to be.

    Raises:
        BadInput: the formula is no length, or divides by zero.
    """
    by_name = {one.name: one for one in ones}
    middle = {name: (one.low + one.high) / 2 for name, one in by_name.items()}
    found = slopes_of(formula, middle)
    slopes = found.slopes
    coat = _coat(fit, ones)
    tight, loose = (_at(formula, by_name, found, end) - coat for end in (0, 1))
    together = shares(_chain(ones, slopes, one_instrument=fit.one_instrument))
    straight = float(fit.setup_error.to("mm")) if fit.setup_error else 0.0
    shift, said = shift_of(view, ones, slopes)
    worst = math.fsum(abs(share.reach) for share in together) + straight
    sd = math.sqrt(math.fsum(share.sd**2 for share in together))
    rss = math.sqrt(math.fsum(share.reach**2 for share in together)) + straight
    low, high = tight - worst, loose + worst
    room = Limits(
        None if wanted.low is None else wanted.low + straight - shift[0],
        None if wanted.high is None else wanted.high - straight - shift[1],
    )
    if found.linear:
        chance = chance_within(tight, loose, sd, room)
    else:
        trials = _tried(formula, ones, by_name)
        chance, sd = trials.between(room.low, room.high).value, trials.sd.value
        low, high = _corners(formula, by_name, coat, straight)
    return Gap(
        tight, loose, low + shift[0], high + shift[1], rss, sd,
        chance if wanted != Limits(None, None) else None,
        slopes, _parts(together), shift, straight, coat, said, found.linear,
    )  # fmt: skip


def _at(formula: Formula, ones: Mapping[str, Known], found: Slopes, end: int) -> float:
    sizes = {name: one.sized(found.slopes[name])[end] for name, one in ones.items()}
    if found.linear:
        return found.at(sizes)
    return float(exact(formula, values(sizes), "mm"))


def _coat(fit: Fit, ones: Sequence[Known]) -> float:
    """Give what coatings still to come take from the gap, all faces together."""
    if not fit.coating:
        return 0.0
    bare = [one for one in ones if one.read is None or not one.read.coated]
    faces = min(fit.coated_faces, len(bare)) if len(bare) < len(ones) else None
    return float(fit.coating.to("mm")) * (fit.coated_faces if faces is None else faces)


def _chain(
    ones: Sequence[Known], slopes: Mapping[str, float], *, one_instrument: bool
) -> list[Contributor]:
    """Give the contributors about their middles, scale errors by instrument."""
    chain = [one.chained(slopes[one.name]) for one in ones]
    for one in ones:
        if one.scale:
            tool = one.read.instrument if one.read else None
            own = tool.id if tool else one.name
            shared = "one instrument" if one_instrument else own
            chain.append(
                Contributor(
                    f"scale of {tool.title if tool else one.name}", 0.0, one.scale,
                    one.scale, slopes[one.name], coverage=math.sqrt(3),
                    setup=f"scale {shared}",
                )
            )  # fmt: skip
    return chain


def _parts(together: Sequence[Share]) -> tuple[tuple[str, float], ...]:
    total = math.fsum(share.sd**2 for share in together)
    found = [
        (" + ".join(dict.fromkeys(share.names)), share.sd**2 / total if total else 0.0)
        for share in together
    ]
    return tuple(sorted(found, key=lambda part: -part[1]))


def chance_within(tight: float, loose: float, sd: float, room: Limits) -> float:
    """Give the chance that the tight and the loose gap are within their limits.

    Both miss together: one normal error moves them.
    """
    low = -math.inf if room.low is None else room.low - tight
    high = math.inf if room.high is None else room.high - loose
    if low > high:
        return 0.0
    if sd <= 0:
        return 1.0 if low <= 1e-9 and high >= -1e-9 else 0.0
    below = NormalDist(0, sd).cdf
    return (1.0 if high == math.inf else below(high)) - (
        0.0 if low == -math.inf else below(low)
    )


def _tried(
    formula: Formula, ones: Sequence[Known], by_name: Mapping[str, Known]
) -> Trials:
    units = dict.fromkeys(by_name, "mm")
    chain = [one.chained(1.0) for one in ones]
    return try_out(lambda sizes: sampled(formula, sizes, units, "mm"), chain, TRIALS)


def _corners(
    formula: Formula, ones: Mapping[str, Known], coat: float, straight: float
) -> tuple[float, float]:
    """Give the least and greatest gap over all corners of a formula that bends."""
    names = list(ones)
    if len(names) > MOST_CORNERS:
        raise BadInput(
            f"the formula bends and has {len(names)} names; accepted: at most "
            f"{MOST_CORNERS} in one with min, max or abs"
        )
    ends = [(ones[n].low - ones[n].half, ones[n].high + ones[n].half) for n in names]
    found = [
        float(exact(formula, values(dict(zip(names, corner, strict=True))), "mm"))
        for corner in itertools.product(*ends)
    ]
    return min(found) - coat - straight, max(found) - coat + straight
