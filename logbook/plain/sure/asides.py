"""What stands before and behind a fact and tells nothing of it.

“yesterday 16:00 I just filed the tab, what a pain” is told like “filed the tab”: the
rules look at how a line begins, so that what only leads to it is set apart first.
"""

from __future__ import annotations

from collections.abc import Container
from dataclasses import replace

from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence

_LEADS = frozenset(
    {"just", "so", "then", "finally", "also", "anyway", "and", "btw", "by the way"}
)
_LEAD_BEFORE_A_STOP = frozenset(
    {"ok", "okay", "well", "right", "hm", "hmm", "oh", "ah", "update", "today"}
)
_TELLERS = frozenset({"i", "we"})
_NOTICED = frozenset({"found", "noticed", "discovered"})
_BEFORE_A_TIME = frozenset({"at", "on", "in", "around", "about", "this", "@"})
_STOPS = frozenset({",", ":", "-", ";"})


def bare(sentence: Sentence) -> Sentence:
    """Give the line without what leads to its fact, and without a mood at its end.

    The time must have been read before: its words are then known as such.
    """
    words = sentence.words
    start = 0
    days = sentence.lexicon.weekdays.keys()
    while start < len(words) - 1 and _leads(words, start, days):
        start += 1
    end = _without_mood(sentence, start)
    if start == 0 and end == len(words):
        return sentence
    return replace(sentence, words=words[start:end])


def _leads(words: list[Word], at: int, days: Container[str]) -> bool:
    word, following = words[at], words[at + 1]
    if word.sort is Sort.WHEN or (at > 0 and word.low in _STOPS):
        return True
    if following.sort is Sort.WHEN and word.low in _BEFORE_A_TIME:
        return True
    on_a_day = word.low == "on" and following.low in days
    if at < 2 and (on_a_day or word.low in days):
        return True
    if word.low in _LEADS or (at and word.low in _NOTICED and following.low != ","):
        return True
    if at and word.low == "that" and words[at - 1].low in _NOTICED:
        return True
    if word.low in _LEAD_BEFORE_A_STOP and following.low in _STOPS:
        return True
    ends = {tag.rpartition(":")[2] for tag in following.tags}
    past = "past" in ends and "base" not in ends
    return word.low in _TELLERS and (past or following.low in _LEADS | _NOTICED)


def _without_mood(sentence: Sentence, start: int) -> int:
    """Give where the line ends without a last clause that is only a mood."""
    rows = [row for row in clauses(sentence) if row[0] >= start]
    if len(rows) < 2:
        return len(sentence.words)
    first, last = rows[-1]
    said = sentence.words[first:last]
    moody = any("mood" in word.tags for word in said)
    if moody and all(word.tags & {"mood", "filler", "article"} for word in said):
        return first - 1
    return len(sentence.words)
