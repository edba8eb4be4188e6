"""Which kind a line tells, and its facts: its cure, its remarks and plans set apart."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.choosing import choose
from logbook.plain.kinds.left_be import left_at
from logbook.plain.kinds.made_otherwise import made_otherwise_at
from logbook.plain.kinds.next_time import for_next_time_at
from logbook.plain.kinds.rows_of_work import row_of_work
from logbook.plain.kinds.substitutions import for_want
from logbook.plain.told.brought import brought_to
from logbook.plain.told.facts import gather
from logbook.plain.told.other_stock import other_stock
from logbook.plain.told.part import part_of
from logbook.plain.told.work_and_failure import work_and_failure
from logbook.plain.understanding import CALLED, SURE_ENOUGH, Doubt, Kind
from logbook.plain.values.readings import find_values
from logbook.plain.words.clauses import (
    find_cure,
    reworks,
    without,
    without_plan,
    without_reason,
    without_remark,
)
from logbook.plain.words.revised_to import revising_at
from logbook.plain.words.sentence import Sentence


def told_as(sentence: Sentence, kind: Kind) -> tuple[Sentence, Choice, dict[str, Any]]:
    """Give the facts of a line whose kind was said."""
    values, choice = find_values(sentence), Choice(kind, 1.0)
    return sentence, choice, gather(sentence, values, choice)


def told_in(sentence: Sentence) -> tuple[Sentence, Choice, dict[str, Any]]:
    """Give the kind of the line and its facts, its cure and remarks set apart."""
    revised = revising_at(sentence.words) is not None
    cured = not revised and (
        _for_next_time(sentence)
        or other_stock(sentence)
        or brought_to(sentence)
        or work_and_failure(sentence)
        or _cured(sentence)
    )
    if cured:
        return cured
    values = find_values(sentence)
    choice = choose(sentence, values)
    if choice.kind is Kind.FAILURE and (values.off or values.wanted):
        off = _size_with_reason(sentence)
        if off is not None:
            return off
    made = choice.kind in (Kind.STEP, Kind.ORDER)
    if made and (measured := _made_and_measured(sentence, choice)):
        return measured
    unsure = choice.kind is Kind.NOTE or choice.confidence < SURE_ENOUGH
    shorter = (without_remark(sentence) or without_plan(sentence)) if unsure else None
    if shorter is not None and shorter.words:
        fewer = find_values(shorter)
        plain = choose(shorter, fewer)
        if plain.kind is Kind.READING and plain.confidence >= SURE_ENOUGH:
            return shorter, plain, gather(shorter, fewer, plain)
    return sentence, choice, gather(sentence, values, choice)


def _for_next_time(
    sentence: Sentence,
) -> tuple[Sentence, Choice, dict[str, Any]] | None:
    """Read what is decided for the next one: next time drill it 4.2."""
    at = for_next_time_at(sentence)
    if at is None:
        return None
    rest = replace(sentence, words=sentence.words[at:])
    facts = gather(rest, find_values(rest), Choice(Kind.DECISION, 0.85, 0))
    return sentence, Choice(Kind.DECISION, 0.85, at), facts


_MEASURES = frozenset({"measures", "reads", "measured"})


def _made_and_measured(
    sentence: Sentence, made: Choice
) -> tuple[Sentence, Choice, dict[str, Any]] | None:
    """Read what was measured of what was made: printed at 215 and it measures 74.4."""
    for at in _measured_at(sentence):
        rest = replace(sentence, words=sentence.words[at:], spans={})
        values = find_values(rest)
        if not values.readings:
            return None
        choice = Choice(Kind.READING, 0.85, made.at)
        facts = gather(rest, values, replace(choice, at=0)) | part_of(sentence)
        if made.kind is Kind.ORDER and not facts.get("part"):
            choice = replace(choice, confidence=0.5, doubt=_bought_or_measured())
        told = {one: sentence.spans.get(one, []) for one in ("part", "piece")}
        whole = replace(sentence, spans=rest.spans | told)
        return whole, choice, facts
    return None


def _bought_or_measured() -> Doubt:
    """Ask what is to be kept of a line that tells an order and a size of no part."""
    choices = (CALLED[Kind.READING], CALLED[Kind.ORDER], "only a note")
    return Doubt("which kind", "what does it tell?", choices)


def _measured_at(sentence: Sentence) -> Iterator[int]:
    """Go through where it is told what was measured of what was made.

    By a verb, or by what it should be: turned the bush, bore 5.84 should be 6.
    """
    for at, word in enumerate(sentence.words[1:-1], 1):
        led = {one.low for one in sentence.words[max(0, at - 2) : at]}
        if word.low in _MEASURES and led & {"and", "and it", "it", "now"}:
            yield at
    if (told := made_otherwise_at(sentence)) is not None:
        yield told


def _size_with_reason(
    sentence: Sentence,
) -> tuple[Sentence, Choice, dict[str, Any]] | None:
    """Read a size that is off, where only the last clause tells of a failure."""
    shorter = without_reason(sentence)
    if shorter is None:
        return None
    values = find_values(shorter)
    plain = choose(shorter, values)
    sure = plain.confidence >= SURE_ENOUGH and plain.doubt is None
    if plain.kind is not Kind.READING or not sure:
        return None
    return shorter, plain, gather(shorter, values, plain)


def _befallen(sentence: Sentence, choice: Choice) -> Choice:
    """Give “bowed 0.8 in the middle” as what failed, where a cure is told with it."""
    failed = [at for at in sentence.tagged("fail:past") if "measures" in
              sentence.tags(at)]  # fmt: skip
    sized = choice.kind is Kind.READING or choice.confidence < SURE_ENOUGH
    if not sized or not failed:
        return choice
    return Choice(Kind.FAILURE, 0.85, failed[0])


_NAMES_A_CURE = frozenset({"cure", "cure is", "cure was", "fix", "fix is", "fix was",
                           "remedy", "fixed by", "cured by", "solved by"})  # fmt: skip
"""What only says that a cure follows."""


_IT = frozenset({"it", "they"})
_FAILS = frozenset({"fail:past", "fail:now"})


def _it_failed(sentence: Sentence) -> Choice | None:
    """See “it rattles” before a cure: what cured it is not what rattles."""
    failed = sentence.words[0].low in _IT and sentence.tags(1) & _FAILS
    return Choice(Kind.FAILURE, 0.85, 1) if failed else None


def _cured(sentence: Sentence) -> tuple[Sentence, Choice, dict[str, Any]] | None:
    """Read a failure, or a size that is off, that is followed by its cure."""
    found = find_cure(sentence)
    nothing_failed = (for_want, row_of_work, left_at)
    if found is None or any(one(sentence) is not None for one in nothing_failed):
        return None  # Ran out of 3.2 rivets, used 4 mm; peeled, wiped and put in.
    start, end = found
    rest = without(sentence, start, end)
    values = find_values(rest)
    of_it = _it_failed(rest)
    choice = of_it or _befallen(rest, choose(rest, values))
    off = choice.kind is Kind.READING and (values.wanted or values.off)
    if choice.confidence < SURE_ENOUGH or choice.doubt is not None:
        return None
    if choice.kind is not Kind.FAILURE and not off:
        return None
    if choice.kind is Kind.FAILURE and choice.at >= start:
        return None  # What was done before it failed cured nothing.
    facts = gather(rest, values, choice)
    named = sentence.words[start].low in _NAMES_A_CURE and start + 1 < end
    start += 1 if named else 0
    words = sentence.words[start:end]
    facts["cure"] = sentence.text[words[0].start : words[-1].end]
    rest.spans["cure"] = list(words)
    done = reworks(sentence, start)
    elsewhere = facts.get("others") and not {"it", "them"} & {one.low for one in words}
    if done and not facts.get("disposition") and not elsewhere:
        facts["disposition"] = done
        rest.spans["disposition"] = [words[0]]
    if not facts.get("part") and of_it is None:
        facts.update(part_of(sentence))
        rest.spans["part"] = sentence.spans.get("part", [])
    return rest, choice, facts
