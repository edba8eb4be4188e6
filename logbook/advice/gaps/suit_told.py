"""What is said of the piece made last: its sizes, or that no one size suits."""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.advice.gaps.contributor import Known
from logbook.advice.gaps.gap_case import Case, advise_of, percent
from logbook.advice.gaps.suiting import Suited, inward
from logbook.advice.ground.advice import Advice
from logbook.records.kinds.words import Grade
from logbook.shop.answers import Result


def sizes_advice(case: Case, last: Known, suited: Suited) -> Advice:
    """Give the sizes to make it to, and where the tightest place would not do alone."""
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
    return advise_of(case, grade, said, tuple(_suit_numbers(case, suited)),
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


def apart_advice(case: Case, last: Known) -> Advice:
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
    return advise_of(case, Grade.WAIT, said, (short,), f"measuring {title} again")


def _folded(one: Known) -> bool:
    words = [*one.part.process, *(made.process for made in one.what.made_by)]
    return bool(re.search(r"fold|bend|brak", " ".join(words).lower()))


def was_right(case: Case) -> Iterator[Result]:
    """Give what was right of a piece made to suit: it is held to that when read anew.

    Nothing while a place of the others was not read.
    """
    suited, shown = case.suited, case.shown
    others = [one for one in case.ones if one is not case.last]
    if suited is None or case.last is None or any(one.unread for one in others):
        return
    if not suited.sizes.possible or not all(one.read for one in others):
        return
    low, high = inward(suited.sizes.accept_low, suited.sizes.accept_high, shown.step)
    yield shown.result("right", suited.sizes.finish, "what it was to be finished to")
    yield shown.result("right_low", low, "smallest right size")
    yield shown.result("right_high", high, "largest right size")
