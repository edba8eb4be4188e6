"""Sizes told from a smallest to a largest one: slots run from 4.4 to 4.6."""

from __future__ import annotations

from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence

_SPREAD = frozenset({"run", "runs", "ran", "vary", "varies", "varied"})


def leads_from(sentence: Sentence, at: int) -> bool:
    """Tell whether the word at a place is the verb or the from of “run from 4.4”."""
    verb = at - 1 if sentence.words[at].low == "from" else at
    word, led, first = (sentence.word(one) for one in (verb, verb + 1, verb + 2))
    if verb < 0 or word is None or led is None or first is None:
        return False
    return word.low in _SPREAD and led.low == "from" and first.sort is Sort.NUMBER
