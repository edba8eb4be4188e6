"""Sizes told from a smallest to a largest one: slots run from 4.4 to 4.6.

Both were measured. What was changed from the one to the other is told with a verb, or
downward: 2.2 to 2.0.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence

_SPREAD = frozenset(
    {"run", "runs", "ran", "vary", "varies", "varied", "range", "ranges", "ranged",
     "ranging", "varying", "spread", "spreads", "wander", "wanders", "drifts",
     "goes", "differs"}
)  # fmt: skip
_TO = frozenset({"to", "-", "...", "…", ".."})
_WORKED = ("make:past", "close:past", "rework:past", "take_back:past", "decide",
           "revision", "use:past", "instead")  # fmt: skip
_SCATTERS = frozenset(
    {"kerf", "play", "runout", "ripple", "clearance", "backlash", "spread", "variation",
     "tolerance", "scatter", "noise", "wobble", "springback", "shrinkage", "draw"}
)  # fmt: skip
"""What is never the same twice: told with two figures, it was between them."""
_READ = frozenset({"measured", "measures", "reads", "read", "between", "anywhere"})
_NEAR = Fraction(11, 10)


def leads_from(sentence: Sentence, at: int) -> bool:
    """Tell whether the word at a place is the verb or the from of “run from 4.4”."""
    led = sentence.words[at].low in ("from", "between")
    verb = at - 1 if led and at else at
    word = sentence.word(verb)
    if word is None or word.low not in _SPREAD:
        return False
    first = verb + 2 if _low(sentence, verb + 1) in ("from", "between") else verb + 1
    figure = sentence.word(first)
    return figure is not None and figure.sort is Sort.NUMBER and _last(sentence, first)


def _last(sentence: Sentence, first: int) -> bool:
    """Tell whether a figure is the first of two."""
    joined, last = _low(sentence, first + 1), sentence.word(first + 2)
    return last is not None and last.sort is Sort.NUMBER and joined in (*_TO, "and")


def ends_of_ranges(sentence: Sentence) -> Iterator[tuple[int, int]]:
    """Go through where a smallest and a largest value stand that were measured."""
    for first, word in enumerate(sentence.words):
        last = sentence.word(first + 2)
        if word.sort is not Sort.NUMBER or last is None or last.sort is not Sort.NUMBER:
            continue
        if last.dimension.startswith(("time", "money", "count")):
            continue
        joined, led = _low(sentence, first + 1), _low(sentence, first - 1)
        both = joined in _TO or (joined == "and" and led == "between")
        if both and _are_measured(sentence, first):
            yield first, first + 2


def _are_measured(sentence: Sentence, first: int) -> bool:
    """Tell whether what stands beside two values says that it lay between them."""
    if sentence.has(*_WORKED):
        return False
    led, word, last = first - 1, sentence.words[first], sentence.words[first + 2]
    if leads_from(sentence, led) if first else False:
        return True
    if first and _low(sentence, led) == "from":
        return False
    if sentence.tags(first + 3) & {"length_adjective", "measures"}:
        return True
    low, high = _value(word, last.unit), _value(last, last.unit)
    if low is None or high is None or not low < high:
        return False
    lows = {one for row in sentence.words for one in row.low.split(" ")}
    named = any(
        "measures" in one.tags and "structure" not in one.tags
        for one in sentence.words[:first]
    )
    near = named and high <= low * _NEAR
    exact = all(_FINE.search(one.amounts[0]) for one in (word, last))
    return bool(last.unit or near or exact or lows & (_SCATTERS | _READ))


_FINE = re.compile(r"[.,]\d\d")
"""Nobody draws a size so fine to change it: 178.60 to 178.68 was measured."""


def _value(word: Word, unit: str) -> Fraction | None:
    found = word.quantities(unit or "mm")
    return found[0].value if len(found) == 1 and not found[0].metal else None


def _low(sentence: Sentence, at: int) -> str:
    word = sentence.word(at) if at >= 0 else None
    return word.low if word is not None else ""
