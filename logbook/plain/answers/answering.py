"""What the one answer makes of a doubtful line.

Where the answer fills a fact it is put into the line and the line is read
again, so that one set of rules understands everything.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from logbook.plain.answers.accepted import NOTE_ANSWERS, unfit
from logbook.plain.answers.amended import amending
from logbook.plain.answers.given_up import of_given_up
from logbook.plain.answers.known_faults import answering
from logbook.plain.answers.known_readings import of_wanted
from logbook.plain.answers.of_part import names_size, of_size_named, part_answered
from logbook.plain.answers.of_which_build import of_this_one
from logbook.plain.answers.slip_settled import settled
from logbook.plain.answers.which_it import of_it, of_none, with_part_for_it
from logbook.plain.answers.which_pieces import of_sides, of_so_many, of_these
from logbook.plain.answers.which_revision import of_revision
from logbook.plain.kinds.sizes import AS_BOUGHT
from logbook.plain.lines import understand, understand_as
from logbook.plain.named.named_steps import of_step_answered
from logbook.plain.sure.unread import (
    A_NEW_SIZE,
    DONE_ABOUT,
    NEITHER,
    SO_OR_NOTE,
    WHY,
)
from logbook.plain.understanding import (
    CALLED,
    NO_PART,
    Cause,
    Doubt,
    Facts,
    Kind,
    Span,
    Understanding,
    Verdict,
    as_note,
)
from logbook.plain.words.vocabulary import Vocabulary

_SURE = {
    "measured",
    "done",
    "now",
    "one failure",
    "it is new",
    "it is so",
    *SO_OR_NOTE[:1],
}


def answered(
    line: Understanding, doubt: Doubt, answer: str, vocabulary: Vocabulary
) -> Understanding:
    """Give the line as understood with this answer to this doubt."""
    told = _answered(line, doubt, answer, vocabulary)
    return replace(told, typed=told.typed or line.typed)


def _answered(
    line: Understanding, doubt: Doubt, answer: str, vocabulary: Vocabulary
) -> Understanding:
    answer = _spelled_out(answer.strip(), doubt, vocabulary)
    if _says_nothing(answer, doubt, vocabulary):
        return line
    if (not answer and not doubt.spares) or answer in NOTE_ANSWERS:
        return as_note(line)
    if doubt.about == "amend":
        return amending(line, doubt, answer)
    if doubt.about == "slip":
        return settled(line, doubt, answer)
    if answer in _SURE:
        worked = answer == "measured" and line.kind is Kind.STEP
        told = _measured_after_all(line, vocabulary) if worked else None
        return told or _sure(line, doubt, answer)
    if answer == AS_BOUGHT:
        return _of_stock(line)
    if doubt.about == "part":
        return part_answered(line, doubt, answer, vocabulary)
    if doubt.about == "which kind" or answer in CALLED.values():
        return _of_kind(line, doubt, answer, vocabulary)
    if doubt.about in _FILLED:
        return _FILLED[doubt.about](line, doubt, answer)
    return _reread(line, doubt, answer, vocabulary)


def _spelled_out(answer: str, doubt: Doubt, vocabulary: Vocabulary) -> str:
    """Give the offered answer that begins as typed: `m` is measured."""
    if not answer or answer in (*vocabulary.parts, *vocabulary.proposed):
        return answer
    low = answer.casefold()
    begun = [one for one in doubt.choices if one.casefold().startswith(low)]
    alike = [one for one in begun if one.casefold() == low] or begun
    return alike[0] if len(alike) == 1 else answer


def _says_nothing(answer: str, doubt: Doubt, vocabulary: Vocabulary) -> bool:
    """Tell a stray key from an answer: it is asked again, and names no part."""
    known = {*doubt.choices, *vocabulary.parts, *vocabulary.proposed}
    stray = len(answer) == 1 and not answer.isdigit() and answer not in known
    return stray and bool(unfit(doubt, answer, vocabulary))


def _reread(
    line: Understanding, doubt: Doubt, answer: str, vocabulary: Vocabulary
) -> Understanding:
    """Read the line again with the answer in it; what else is doubtful stays so."""
    if doubt.about == "fastener":
        return _kept_with(
            line, doubt, replace(line.facts, fastener=answer, fitted=answer)
        )
    if doubt.about == "it" and answer in ("", NO_PART):
        return of_none(line, doubt)
    if doubt.about == "it" and line.kind is Kind.NOTE:
        return of_it(line, doubt, answer, known=answer in vocabulary.parts)
    if doubt.about == "what" and not names_size(answer, vocabulary):
        return part_answered(line, doubt, answer.removeprefix("the "), vocabulary)
    filled = _filled(line, doubt, answer)
    # What was answered is a number as it is offered: its point is one.
    again = understand(filled, vocabulary.keeping(commas=False))
    if doubt.about == "day":
        return replace(again, typed=line.typed or line.line)
    if doubt.about == "what" and again.question and again.question.about == "what":
        return of_size_named(line, doubt, answer)
    again = replace(again, line=line.line, rest=line.rest, filled=filled)
    again = replace(again, words={}, content=(), told_by=None)
    if again.verdict is Verdict.KEPT:
        return _kept_with(line, doubt, line.facts)
    left = tuple(one for one in again.doubts if one != doubt)
    return replace(again, doubts=left, confidence=max(again.confidence, 0.9))


def _kept_with(line: Understanding, doubt: Doubt, facts: Facts) -> Understanding:
    """Give the line with one question less; what was understood stays."""
    left = tuple(one for one in line.doubts if one != doubt)
    return replace(line, facts=facts, doubts=left, confidence=1.0)


def _of_count(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the count as of what was named."""
    facts = replace(line.facts, counted=answer)
    left = tuple(one for one in line.doubts if one != doubt)
    return replace(line, facts=facts, doubts=left, confidence=1.0)


def _of_stock(line: Understanding) -> Understanding:
    """Give the line as what its part is made from, nothing measured."""
    facts = replace(line.facts, thickness=line.facts.readings[0].value, readings=())
    words = {**line.words, "thickness": line.words.get("readings", ())}
    return replace(
        line, kind=Kind.DRAWN, facts=facts, words=words, confidence=1.0, doubts=()
    )


def _of_kind(
    line: Understanding, doubt: Doubt, answer: str, vocabulary: Vocabulary
) -> Understanding:
    """Give the line as telling what was said; another answer keeps a note."""
    meant = next((kind for kind, called in CALLED.items() if called == answer), None)
    if meant is None:
        return as_note(line)
    left = tuple(one for one in line.doubts if one is not doubt)
    if meant is line.kind.broad:
        return replace(line, doubts=left, confidence=1.0)
    told = understand_as(line.line, meant, vocabulary)
    if meant is Kind.READING and not (told.facts.readings or told.facts.off):
        return as_note(line)
    if meant is Kind.DISPOSITION and not told.facts.disposition:
        told = replace(told, facts=replace(told.facts, disposition="rework"))
    return replace(told, confidence=1.0)


def _sure(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    left = tuple(
        one
        for one in line.doubts
        if one != doubt and not (one.needed and one.about in (doubt.about, "kind"))
    )
    facts = replace(line.facts, when=None) if answer == "now" else line.facts
    meant = {"one failure": Kind.FAILURE, "measured": Kind.READING}
    kind = meant.get(answer, line.kind)
    return replace(line, kind=kind, facts=facts, confidence=1.0, doubts=left)


def _measured_after_all(
    line: Understanding, vocabulary: Vocabulary
) -> Understanding | None:
    """Give what looked like work as measured: each value at a place of its own."""
    told = understand_as(line.line, Kind.READING, vocabulary)
    if not told.facts.readings or told.facts.part != line.facts.part:
        return None
    left = tuple(one for one in told.doubts if not one.needed)
    return replace(told, doubts=left, confidence=1.0)


def _with_aside(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the failure with what its last words tell: why, or what was done."""
    if answer and answer not in (WHY, DONE_ABOUT, NEITHER):
        return as_note(line)
    said = _ambiguous(doubt)[0]
    facts, start = line.facts, max(line.line.find(said), 0)
    words = {fact: row for fact, row in line.words.items() if fact != "cure"}
    facts = replace(facts, cure="")
    if answer == WHY:
        facts = replace(facts, cause=Cause(said))
        words["cause"] = (Span(start, start + len(said)),)
    elif answer == DONE_ABOUT:
        facts = replace(facts, cure=said)
        words["cure"] = (Span(start, start + len(said)),)
    left = tuple(one for one in line.doubts if one is not doubt)
    return replace(line, facts=facts, words=words, doubts=left, confidence=1.0)


def _at_hour(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the line with the hour that was meant; no hour keeps it as a note."""
    match = re.fullmatch(r"([01]?\d|2[0-3])(?::([0-5]\d))?", answer)
    if match is None or line.facts.when is None:
        return as_note(line)
    when = line.facts.when.replace(hour=int(match[1]), minute=int(match[2] or 0))
    left = tuple(one for one in line.doubts if one != doubt)
    return replace(line, facts=replace(line.facts, when=when), doubts=left)


def _of_size(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the reading as of the size that was meant."""
    old, new = line.facts.what, answer.removesuffix(A_NEW_SIZE)
    readings = tuple(
        replace(one, what=new) if one.what == old else one
        for one in line.facts.readings
    )
    facts = replace(line.facts, what=new, readings=readings)
    left = tuple(one for one in line.doubts if one is not doubt)
    return replace(line, facts=facts, doubts=left)


def _of_fault(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the line with the fault that what is done with the piece answers."""
    del doubt
    return answering(line, answer)


_FILLED: dict[str, Callable[[Understanding, Doubt, str], Understanding]] = {
    "counted": _of_count,
    "aside": _with_aside,
    "hour": _at_hour,
    "size": _of_size,
    "step": of_step_answered,
    "answers": _of_fault,
    "pieces": of_so_many,
    "which pieces": of_these,
    "whose piece": of_this_one,
    "given up": of_given_up,
    "sides": of_sides,
    "wanted": of_wanted,
    "revision": of_revision,
}
"""What an answer makes of the line, by what the doubt is about."""


def _filled(line: Understanding, doubt: Doubt, answer: str) -> str:
    """Put the answer where it belongs: for a number, over it; a unit, behind it."""
    text = line.filled or line.line
    if doubt.about == "it":
        return with_part_for_it(text, answer)
    if doubt.about in ("value", "day"):
        text = " ".join(text.split())
        for spelled in _ambiguous(doubt):
            if spelled in text:
                return text.replace(spelled, answer, 1)
    if doubt.about == "unit":
        for span in reversed(line.words.get("readings", ())):
            text = f"{text[: span.end]} {answer}{text[span.end :]}"
        return text
    return f"{answer} {text}"


def _ambiguous(doubt: Doubt) -> tuple[str, ...]:
    """Give the words the question quotes: “1,234” can be …."""
    start, end = doubt.question.find("“"), doubt.question.find("”")
    return (doubt.question[start + 1 : end],) if 0 <= start < end else ()
