"""Work told by the clock: 9:15 to 9:35 took 20 minutes and began at 9:15.

Bare hours tell it too where only hours can stand: “9 to 10 glued the base”.
"""

from __future__ import annotations

from fractions import Fraction

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.lexicon import NO_TAGS
from logbook.plain.words.sentence import Sentence
from logbook.quantity import Quantity, quantity

_JOINS = frozenset({"to", "-", "till", "until"})
_DAY = 24 * 60


def find_clock_span(sentence: Sentence) -> tuple[Quantity, tuple[Word, ...]] | None:
    """Give how long work took, told as two times; the last is marked as told."""
    for at in sentence.sorts(Sort.CLOCK):
        join, last = sentence.word(at + 1), sentence.word(at + 2)
        if join is None or last is None or last.sort is not Sort.CLOCK:
            continue
        first = sentence.words[at]
        if join.low not in _JOINS or "m" in first.low + last.low:
            continue
        took = (_minutes(last.low) - _minutes(first.low)) % _DAY
        words = (join, last)
        for word in words:
            word.sort, word.tags, word.amounts = Sort.WHEN, NO_TAGS, ()
        return quantity(Fraction(took), "min", Fraction(1)), (first, *words)
    return _bare_hours(sentence)


def _bare_hours(sentence: Sentence) -> tuple[Quantity, tuple[Word, ...]] | None:
    """Read “9 to 10 glued the base”: whole hours before work, first or behind a day."""
    for at in (0, 1, 2):
        row = sentence.words[at : at + 4]
        if len(row) < 4 or not (at == 0 or is_day(sentence, at - 1)):
            continue
        first, join, last, done = row
        hours = is_hour(first) and is_hour(last)
        if not hours or join.low not in _JOINS or not is_done(done):
            continue
        took = ((last.whole or 0) - (first.whole or 0)) % 12 * 60
        for word in (join, last):
            word.sort, word.tags, word.amounts = Sort.WHEN, NO_TAGS, ()
        return quantity(Fraction(took), "min", Fraction(1)), (first, join, last)
    return None


def is_hour(word: Word) -> bool:
    """Tell whether a bare number can be an hour of the day."""
    whole = word.sort is Sort.NUMBER and not word.unit and word.whole is not None
    return whole and 0 < (word.whole or 0) <= 24


def is_day(sentence: Sentence, at: int) -> bool:
    """Tell whether a word is one of a day that was: yesterday, monday."""
    word = sentence.word(at)
    if word is None or word.name is not None:
        return False
    told = word.tags & {"time:yesterday", "time:today", "time:before_yesterday"}
    return bool(told) or word.low in sentence.lexicon.weekdays


def is_done(word: Word) -> bool:
    """Tell whether a word begins to say what was done: glued, cracked, measured."""
    past = any(tag.endswith(":past") for tag in word.tags)
    return past and word.sort is Sort.WORD and word.name is None


def _minutes(clock: str) -> int:
    hour, _, minute = clock.partition(":")
    return int(hour) * 60 + int(minute or 0)
