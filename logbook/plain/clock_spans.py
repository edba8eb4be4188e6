"""Work told by the clock: 9:15 to 9:35 took 20 minutes and began at 9:15."""

from __future__ import annotations

from fractions import Fraction

from logbook.plain.figures import Sort, Word
from logbook.plain.lexicon import NO_TAGS
from logbook.plain.sentence import Sentence
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
    return None


def _minutes(clock: str) -> int:
    hour, _, minute = clock.partition(":")
    return int(hour) * 60 + int(minute or 0)
