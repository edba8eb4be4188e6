"""What the words of lines known before say to the kind the rules chose.

The rules alone make facts. Where a line's words hardly ever stood in a line of the
kind they chose, it is asked about; where they nearly always did, a faint sign of a
misreading is passed over.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from logbook.plain.sure.likely import likely, signs_of, speaks_for
from logbook.plain.understanding import (
    SURE_ENOUGH,
    Doubt,
    Kind,
    Understanding,
    Verdict,
)
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence

UNLIKELY = 0.1
"""Of a kind less likely than this a line is not taken unasked.

On 240 lines nobody had seen, six of the seven lines below it were wrong.
"""
LIKELY = 0.9
"""From here on a faint doubt is passed over."""
WORTH_OFFERING = 0.25
"""A kind less likely than this is not offered as what was meant."""

_PAPERS = frozenset({"drawing", "file", "plan", "model", "dxf", "stl"})
_WHICH = "what does it tell?"
CALLED: Mapping[Kind, str] = {
    Kind.READING: "something measured",
    Kind.FAILURE: "something failed",
    Kind.DECISION: "something decided",
    Kind.DISPOSITION: "what is done with a piece",
    Kind.STEP: "work done",
    Kind.ORDER: "something ordered",
}
"""What a kind is called where it is asked for."""

_LEFT_ALONE = (Kind.NOTE, Kind.QUESTION, Kind.COUNT)
"""Kinds that do no harm, or that are told by their very form."""


def believed(sentence: Sentence, line: Understanding) -> Understanding:
    """Give the line without its faint doubts, where its words speak for its kind."""
    two_times = sentence.sorts(Sort.CLOCK)  # The first one is read as the moment.
    if two_times or not any(one.faint for one in line.doubts):
        return line
    if _chance(sentence, line, likely(signs_of(sentence))) < LIKELY:
        return line
    left = tuple(one for one in line.doubts if not one.faint)
    return replace(line, doubts=left, confidence=max(line.confidence, LIKELY))


def questioned(sentence: Sentence, line: Understanding) -> Understanding:
    """Give the line, asked about first where its words speak against its kind."""
    if line.verdict is not Verdict.TAKEN or line.kind in _LEFT_ALONE:
        return line
    by_kind = likely(signs_of(sentence))
    if _chance(sentence, line, by_kind) >= UNLIKELY:
        return line
    return replace(line, doubts=(_which_kind(line.kind, by_kind), *line.doubts))


def worth_asking(sentence: Sentence, line: Understanding) -> Kind | None:
    """Give the kind a line speaks for, where no rule told one: it is asked about.

    On 360 lines nobody had seen, 23 of those kept as notes unsaid were asked about so;
    19 of them were of the kind that is offered.
    """
    told = line.kind is not Kind.NOTE or line.confidence >= SURE_ENOUGH
    if told or line.doubts:
        return None
    by_kind = likely(signs_of(sentence))
    likeliest = max(by_kind, key=lambda kind: by_kind[kind])
    worth = likeliest in CALLED and by_kind[likeliest] >= SURE_ENOUGH
    return likeliest if worth else None


def asked_as(line: Understanding) -> Understanding:
    """Give a line read as telling a kind, to be asked first whether it does."""
    doubt = Doubt("which kind", _WHICH, (CALLED[line.kind], "only a note"))
    return replace(line, doubts=(doubt, *line.doubts))


def _chance(
    sentence: Sentence, line: Understanding, by_kind: Mapping[Kind, float]
) -> float:
    """Give how likely a line is what it was read as.

    A piece used as it is was both decided on and disposed of; one that is scrapped for
    its size tells of the size; what is wrong in a drawing failed, and says whose
    fault it is; whose fault a size or a failure is, is a decision that tells of them.
    """
    chance = speaks_for(line.kind, by_kind)
    facts, kind = line.facts, line.kind
    both = (Kind.DECISION, Kind.DISPOSITION)
    if kind in both and facts.disposition:
        chance = sum(by_kind[one] for one in both)
    if kind is Kind.DISPOSITION and (facts.wanted or facts.off):
        chance += by_kind[Kind.READING] + by_kind[Kind.FAILURE]
    if kind is Kind.FAILURE and not _PAPERS.isdisjoint(sentence.text.lower().split()):
        chance += by_kind[Kind.DECISION]
    if kind is Kind.DECISION and facts.met_by_others:
        chance += by_kind[Kind.READING] + by_kind[Kind.FAILURE]
    return chance


def _which_kind(chosen: Kind, by_kind: Mapping[Kind, float]) -> Doubt:
    """Ask which kind is meant: the one of the rules, or the one the words speak for."""
    likeliest = max(by_kind, key=lambda kind: by_kind[kind])
    offered = [CALLED[chosen.broad]] if chosen.broad in CALLED else []
    if likeliest in CALLED and by_kind[likeliest] >= WORTH_OFFERING:
        offered.insert(0, CALLED[likeliest])
    choices = (*dict.fromkeys(offered), "only a note")
    return Doubt("which kind", _WHICH, choices)
