"""What is said of a gap: that the last piece waits, its sizes, or how it came out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from logbook.advice.gaps.contributor import Known
from logbook.advice.gaps.gap import Gap, Limits
from logbook.advice.gaps.suiting import Suited, inward
from logbook.advice.ground.advice import Advice
from logbook.advice.ground.cost import cost_words, weighed
from logbook.advice.ground.lengths import Shown
from logbook.records.assembling import Fit
from logbook.records.ids import Ref
from logbook.records.words import Grade
from logbook.records.workshop import Piece
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


def case_advice(case: Case) -> Iterator[Advice]:
    """Say what a worked-out gap means for the piece made last, or how it came out."""
    last = case.last
    if last is None or last.read is not None:
        yield _as_it_is(case)
        return
    open_ones = [one for one in case.ones if one.read is None and one is not last]
    if open_ones:
        yield _wait(case, last, open_ones)
    elif case.suited is not None and not case.suited.sizes.possible:
        yield _apart(case, last)
    elif case.suited is not None:
        yield _sizes(case, last, case.suited)
    else:
        yield _as_it_is(case)


def _advice(
    case: Case, grade: Grade, said: str, numbers: Sequence[Result], changes: str
) -> Advice:
    fit, shown = case.fit, case.shown
    own = f" {case.piece.id}" if case.piece else ""
    sources = [one.source for one in case.ones if one.source]
    readings = [one.said for one in case.ones]
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


def _as_it_is(case: Case) -> Advice:
    gap, shown, wanted = case.gap, case.shown, case.wanted
    tight, loose = shown(gap.tight), shown(gap.loose)
    span = tight if tight == loose else f"{tight} to {loose}"
    made = all(one.read for one in case.ones)
    stands = f"{'is' if made else 'would be'} {span}"
    worst = f"worst case {shown(gap.worst_low)} to {shown(gap.worst_high)}"
    if gap.chance is None:
        said = f"{stands}, {worst}; no limits are wanted of it"
        told = _advice(case, Grade.REMARK, said, (), "another reading")
    else:
        verdict, grade = _verdict(case)
        said = f"{stands} ({worst}), wanted {limits_text(wanted, shown)}: {verdict}"
        told = _advice(case, grade, said, (), "another reading, or another piece")
    return replace(told, read=made)


def _verdict(case: Case) -> tuple[str, Grade]:
    gap, wanted = case.gap, case.wanted
    chance = gap.chance or 0.0
    if wanted.low is not None and gap.tight < wanted.low and chance < case.target:
        where = _where(case, tight=True)
        side = "goes in only by force" if gap.tight < 0 else "tighter than wanted"
        return f"{side}{where}", Grade.CHECK
    if wanted.high is not None and gap.loose > wanted.high and chance < case.target:
        return f"looser than wanted{_where(case, tight=False)}", Grade.CHECK
    if chance < case.target and not all(one.read for one in case.ones):
        return f"{100 * chance:.0f} % chance, too little to go on", Grade.CHECK
    if chance < case.target:
        return f"within, but too close to call ({100 * chance:.0f} %)", Grade.REMARK
    return f"within, by a chance of {percent(chance)}", Grade.REMARK


def _where(case: Case, *, tight: bool) -> str:
    """Name the place that governs, where places disagree."""
    for one in case.ones:
        if one.read and one.read.disagree:
            slope = case.gap.slopes[one.name]
            place = one.read.smallest if (slope > 0) is tight else one.read.largest
            if place.name:
                return f" at {place.name}"
    return ""


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


def _wait(case: Case, last: Known, open_ones: Sequence[Known]) -> Advice:
    """Say that the last piece waits, with the chance if it were made now."""
    chance = case.gap.chance or 0.0
    leading, share = case.gap.parts[0]
    names = ", ".join(f"{one.part.title} {one.what.title}" for one in open_ones)
    if chance >= case.target:
        said = f"{last.part.title} may be made now: {percent(chance)} chance of landing"
        return _advice(case, Grade.REMARK, said, (), f"measuring {names}")
    likeliest = ", the likeliest size," if last.free else ""
    said = (
        f"{operation(last)} waits until {names} is measured: made to "
        f"{case.shown(last.nominal)}{likeliest} now it would land with a chance of "
        f"{percent(chance)}; {leading} carries {100 * share:.0f} % of the doubt"
    )
    grade = weighed(last.part, Grade.WAIT)
    advice = _advice(case, grade, said, (), f"measuring {names}")
    return replace(advice, assumed=(*advice.assumed, cost_words(last.part)))


def operation(last: Known) -> str:
    """Say in shop words what making the last piece is."""
    word = " ".join(last.part.process).lower()
    for key, said in (
        ("saw", "cutting"), ("cut", "cutting"), ("fold", "folding"),
        ("bend", "bending"),
        ("print", "printing"), ("drill", "drilling"), ("turn", "turning"),
        ("mill", "milling"),
    ):  # fmt: skip
        if re.search(key, word):
            return f"{said} the {last.part.title}"
    return f"making the {last.part.title}"


def _apart(case: Case, last: Known) -> Advice:
    """Say that no one size suits, and that the other piece wants putting right."""
    suited = case.suited
    assert suited is not None
    sizes = suited.sizes
    worst = max(
        (one for one in case.ones if one.read and one is not last),
        key=lambda one: one.high - one.low,
    )
    assert worst.read is not None
    small, large = worst.read.smallest, worst.read.largest
    mend = "re-square the bend" if _folded(worst) else "put it right"
    title = worst.piece.title if worst.piece else worst.part.title
    said = (
        f"{title} reads {case.shown(small.value)} at {small.name or 'one place'} and "
        f"{case.shown(large.value)} at {large.name or 'another'}: no one "
        f"{last.part.title} suits both, by {case.shown(sizes.short_by)}. {mend}, "
        f"do not cut to it"
    )
    short = case.shown.result("short_by", sizes.short_by, "more than the gap allows")
    return _advice(case, Grade.WAIT, said, (short,), f"measuring {title} again")


def _folded(one: Known) -> bool:
    words = [*one.part.process, *(made.process for made in one.what.made_by)]
    return bool(re.search(r"fold|bend|brak", " ".join(words).lower()))


def _sizes(case: Case, last: Known, suited: Suited) -> Advice:
    shown, sizes = case.shown, suited.sizes
    low, high = inward(sizes.accept_low, sizes.accept_high, shown.step)
    rough = f"rough {shown(suited.rough)}, " if suited.rough is not None else ""
    said = (
        f"make the {last.part.title} {last.what.title} to suit: {rough}finish "
        f"{shown(sizes.finish)}, accept {shown(low)} to {shown(high)}; "
        f"{percent(suited.as_cut)} as cut, {percent(sizes.chance)} when finished so; "
        f"or offer it up and fit{_not_the_rule(case, last, suited)}"
    )
    drawn = suited.drawn_gap
    if drawn is not None and drawn < 0:
        said += f". To the drawing ({shown(last.nominal)}) it could not go in unforced"
    elif suited.as_drawn is not None and suited.as_drawn < case.target:
        said += (
            f". To the drawing ({shown(last.nominal)}) the chance would be "
            f"{percent(suited.as_drawn)}"
        )
    grade = Grade.REMARK
    return _advice(case, grade, said, tuple(_suit_numbers(case, suited)),
                   "a reading of any of the others")  # fmt: skip


def _not_the_rule(case: Case, last: Known, suited: Suited) -> str:
    """Say where the rule that is published gives another size than this, and why.

    That is the tightest place less the middle of the gap, as long as places differ
    little.
    """
    sizes, wanted, shown = suited.sizes, case.wanted, case.shown
    if wanted.low is None or wanted.high is None:
        return ""
    by = abs(case.gap.slopes[last.name])
    short = (sizes.gap_tight - (wanted.low + wanted.high) / 2) / by
    apart = abs(sizes.loosest - sizes.tightest)
    if abs(short) < shown.step / 2 or apart < shown.step / 2:
        return ""
    side = -1 if sizes.loosest < sizes.tightest else 1
    return (
        f"; not {shown(sizes.finish + side * short)}, which the tightest place alone "
        f"would give: the places differ by {shown(apart)}"
    )


def _suit_numbers(case: Case, suited: Suited) -> Iterator[Result]:
    shown, sizes = case.shown, suited.sizes
    low, high = inward(sizes.accept_low, sizes.accept_high, shown.step)
    if suited.rough is not None:
        yield shown.result("rough", suited.rough, "saw or cut to this first")
    yield shown.result("finish", sizes.finish, "file or finish to this")
    yield shown.result("accept_low", low, "smallest right size")
    yield shown.result("accept_high", high, "largest right size")
    yield shown.result("tightest", sizes.tightest, "the place that governs entry")
    yield shown.result("loosest", sizes.loosest, "the place with most play")
    yield Result("chance_as_cut", 100 * suited.as_cut, "%", 0, "before finishing")
    yield Result("chance_finished", 100 * sizes.chance, "%", 0, "when finished so")
    if suited.as_drawn is not None:
        yield Result("chance_as_drawn", 100 * suited.as_drawn, "%", 0, "to the drawing")
    if suited.drawn_gap is not None:
        yield shown.result("gap_as_drawn", suited.drawn_gap, "tightest, to the drawing")
