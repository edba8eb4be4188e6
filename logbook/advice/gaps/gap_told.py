"""What is said of a gap: that the last piece waits, its sizes, or how it came out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from logbook.advice.gaps.contributor import Known
from logbook.advice.gaps.gap_case import Case, advise_of, limits_text, percent
from logbook.advice.gaps.suit_told import apart_advice, sizes_advice, was_right
from logbook.advice.gaps.suiting import inward
from logbook.advice.ground.advice import Advice
from logbook.advice.ground.cost import cost_words, weighed
from logbook.records.kinds.words import Grade
from logbook.records.sizes.definition import TOO_CLOSE, WITHIN
from logbook.shop.answers import Result


def case_advice(case: Case) -> Iterator[Advice]:
    """Say what a worked-out gap means for the piece made last, or how it came out."""
    last = case.last
    if last is None or last.read is not None:
        yield _as_it_is(case)
        return
    open_ones = [one for one in case.ones if one.read is None and one is not last]
    partly = [one for one in case.ones if one.unread and one is not last]
    if open_ones:
        yield _wait(case, last, open_ones)
    elif case.suited is not None and not case.suited.sizes.possible:
        yield apart_advice(case, last)
    elif partly:
        yield _wait_for_places(case, last, partly)
    elif case.suited is not None:
        yield sizes_advice(case, last, case.suited)
    else:
        yield _as_it_is(case)


def _as_it_is(case: Case) -> Advice:
    gap, shown, wanted = case.gap, case.shown, case.wanted
    tight, loose = shown(gap.tight), shown(gap.loose)
    span = tight if tight == loose else f"{tight} to {loose}"
    made = all(one.read for one in case.ones)
    partly = [one for one in case.ones if one.unread]
    more = f"; {_places_read(partly)}" if partly else ""
    stands = f"{'is' if made else 'would be'} {span}"
    worst = f"worst case {shown(gap.worst_low)} to {shown(gap.worst_high)}"
    if gap.chance is None:
        said = f"{stands}, {worst}; no limits are wanted of it"
        told = advise_of(case, Grade.REMARK, said + more, (), "another reading")
    else:
        verdict, grade = _verdict(case)
        said = f"{stands} ({worst}), wanted {limits_text(wanted, shown)}: {verdict}"
        changed_by = "another reading, or another piece"
        told = advise_of(case, grade, said + more, tuple(was_right(case)), changed_by)
    return replace(told, read=made and not partly)


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
        return f"{WITHIN}, but {TOO_CLOSE} ({100 * chance:.0f} %)", Grade.REMARK
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


def _wait(case: Case, last: Known, open_ones: Sequence[Known]) -> Advice:
    """Say that the last piece waits, with the chance if it were made now."""
    chance = case.gap.chance or 0.0
    leading, share = case.gap.parts[0]
    shown = {one.name: f"{one.part.title} {one.what.title}" for one in case.ones}
    names = ", ".join(shown[one.name] for one in open_ones)
    if chance >= case.target:
        said = f"{last.part.title} may be made now: {percent(chance)} chance of fitting"
        return advise_of(case, Grade.REMARK, said, (), f"measuring {names}")
    likeliest = ", the likeliest size" if last.free else ""
    said = (
        f"{operation(last)} waits until {names} is measured: made now, to "
        f"{case.shown(last.nominal)}{likeliest}, it would fit with a chance of "
        f"{percent(chance)}; {shown[leading]} carries {100 * share:.0f} % of the doubt"
    )
    grade = weighed(last.part, Grade.WAIT)
    advice = advise_of(case, grade, said, (), f"measuring {names}")
    return replace(advice, assumed=(*advice.assumed, cost_words(last.part)))


def _wait_for_places(case: Case, last: Known, partly: Sequence[Known]) -> Advice:
    """Say that the last piece waits for places that were not read, and what is known.

    Another place can only make the accept range narrower.
    """
    left = "; ".join(
        f"{one.part.title} {one.what.title} at {', '.join(one.unread)}"
        for one in partly
    )
    said = f"{operation(last)} waits: {_places_read(partly)}; still to be read: {left}"
    numbers: tuple[Result, ...] = ()
    if case.suited is not None:
        shown, sizes = case.shown, case.suited.sizes
        low, high = inward(sizes.accept_low, sizes.accept_high, shown.step)
        said += (
            f"; preliminary, by what is read so far: finish {shown(sizes.finish)}, "
            f"accept no more than {shown(low)} to {shown(high)}"
        )
        numbers = (
            shown.result("finish_so_far", sizes.finish, "preliminary"),
            shown.result("accept_low_so_far", low, "preliminary, no smaller"),
            shown.result("accept_high_so_far", high, "preliminary, no larger"),
        )
    grade = weighed(last.part, Grade.WAIT)
    advice = advise_of(case, grade, said, numbers, f"reading {left}")
    return replace(advice, assumed=(*advice.assumed, cost_words(last.part)))


def _places_read(partly: Sequence[Known]) -> str:
    """Say at how many of its places each size was read."""
    return ", ".join(
        f"{one.places - len(one.unread)} of {one.places} places of {one.part.title} "
        f"{one.what.title} read"
        for one in partly
    )


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
