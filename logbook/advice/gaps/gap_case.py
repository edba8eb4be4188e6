"""A gap worked out for some pieces, and what is said of it as a piece of advice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from logbook.advice.gaps.contributor import Known
from logbook.advice.gaps.gap import Gap, Limits
from logbook.advice.gaps.suiting import Suited
from logbook.advice.ground.advice import Advice
from logbook.advice.ground.lengths import Shown
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Piece
from logbook.shop.answers import Result

_FORMULA = (
    "gap at the tightest and the loosest place; worst case Σ|c·h|, RSS √Σ(c·h)², "
    "chance by the normal error common to both"
)
_SUIT = (
    "accept from loosest − largest gap + U to tightest − smallest gap − U; finish at "
    "tightest − middle of the gap, or in the middle of accept where that is nearer to "
    "an end of it than finishing scatters; rough a cut's scatter above accept"
)


@dataclass(frozen=True, slots=True)
class Case:
    """A gap with the pieces looked at and everything worked out for them.

    `build` names the build they belong to, where there are several.
    """

    fit: Fit
    ones: tuple[Known, ...]
    last: Known | None
    wanted: Limits
    gap: Gap
    suited: Suited | None
    target: float
    piece: Piece | None
    shown: Shown
    build: str = ""


def advise_of(
    case: Case, grade: Grade, said: str, numbers: Sequence[Result], changes: str
) -> Advice:
    """Give what is said of a gap as advice, with all that it was worked out from."""
    fit, shown = case.fit, case.shown
    own = f" {case.piece.id}" if case.piece else ""
    sources = [one.source for one in case.ones if one.source]
    readings = [
        f"{one.said}; {one.before}" if one.before else one.said for one in case.ones
    ]
    uncertain = any(one.read for one in case.ones)
    return Advice(
        key=f"gap {fit.id}{own}",
        topic="gaps",
        grade=grade,
        about=fit.ref,
        statement=f"{fit.title}{f', {case.build}' if case.build else ''}: {said}",
        numbers=(*_gap_numbers(case, shown), *numbers),
        inputs=_inputs(case),
        formula=f"{fit.formula}; {_FORMULA}" + (f"; {_SUIT}" if case.suited else ""),
        sources=tuple(dict.fromkeys((*sources, *_GUM[:1] * uncertain))),
        assumed=(*readings, *case.gap.assumed, *_straight(case)),
        changes=(changes,),
        step=fit.step,
    )


_GUM = ("instrument uncertainty as JCGM 100, guard band U as ISO 14253-1",)


def _straight(case: Case) -> Iterator[str]:
    if case.gap.straight:
        yield f"set-up error ±{case.gap.straight:g} mm added straight"
    if case.gap.coat:
        yield f"coatings still to come take {case.gap.coat:g} mm"
    low, high = case.gap.shift
    if max(-low, high) >= case.shown.step / 2:
        yield f"over the project's rooms the gap moves {low:+.2f} to {high:+.2f} mm"


def _inputs(case: Case) -> tuple[Ref, ...]:
    refs = [case.fit.ref]
    for one in case.ones:
        refs += one.inputs
    return tuple(dict.fromkeys(refs))


def _gap_numbers(case: Case, shown: Shown) -> Iterator[Result]:
    gap = case.gap
    if case.last is None or case.last.read is not None:
        yield shown.result("gap_tight", gap.tight, "at the tightest place")
        yield shown.result("gap_loose", gap.loose, "at the loosest place")
    yield shown.result("worst_low", gap.worst_low, "worst case")
    yield shown.result("worst_high", gap.worst_high, "worst case")
    yield shown.result("rss_low", gap.rss_low, "root sum of squares")
    yield shown.result("rss_high", gap.rss_high, "root sum of squares")
    if gap.chance is not None:
        yield Result(
            "chance", round(100 * gap.chance, 2), "%", 0, "of landing as it is"
        )
    for name, share in gap.parts[:6]:
        yield Result(f"doubt of {name}", 100 * share, "%", 1, "share of the doubt")


def limits_text(wanted: Limits, shown: Shown) -> str:
    """Say what is wanted of a gap."""
    if wanted.low is None or wanted.high is None:
        low = f"at least {shown(wanted.low)}" if wanted.low is not None else ""
        return low or f"at most {shown(wanted.high or 0.0)}"
    return f"{shown(wanted.low)} to {shown(wanted.high)}"


def percent(chance: float) -> str:
    """Say a chance with no more digits than it is good to."""
    if chance > 0.995:
        return "more than 99 %"
    return "less than 1 %" if chance < 0.005 else f"{100 * chance:.0f} %"
