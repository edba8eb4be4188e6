"""In which unit a bare figure was that work was done to: baked at 160, bent to 90."""

from __future__ import annotations

from itertools import pairwise

from logbook.plain.told.no_sizes import sizes_in
from logbook.plain.told.several import typed_unit
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence
from logbook.quantity import Quantity, quantity

_WARM = 30


def set_to(sentence: Sentence, value: Quantity) -> Quantity:
    """Give a value that work was done to in its own unit, where none was typed."""
    bare = value.text.endswith(" mm") and not typed_unit(sentence, value)
    if not bare:
        return value
    warm = value.step == 1 and value.value >= _WARM and sentence.has("hot_verb")
    if warm and not _sized(sentence, value):
        return quantity(value.value, "°C", value.step)
    if _torqued_to(sentence, value):
        return quantity(value.value, "N·m", value.step)
    if _bent_to(sentence, value):
        return quantity(value.value, "°", value.step)
    return value


def _sized(sentence: Sentence, value: Quantity) -> bool:
    """Tell the 200 of “soldered the leads, 200 long”: a length, and no heat."""
    return any(
        value in sizes_in(sentence, [word]) and "length_adjective" in following.tags
        for word, following in pairwise(sentence.words)
    )


_TIGHTENS = ("torqu", "retorqu", "tighten", "retighten")


def _torqued_to(sentence: Sentence, value: Quantity) -> bool:
    """Tell the 0.4 of “torqued the screws to 0.4”, which is no length."""
    verb = any(word.low.startswith(_TIGHTENS) for word in sentence.words)
    if not verb or value.dimension != "length" or typed_unit(sentence, value):
        return False
    return any(
        led.low.split(" ")[-1] in ("to", "at") and value in sizes_in(sentence, [word])
        for led, word in pairwise(sentence.words)
    )


_ANGLES = frozenset({15, 30, 45, 60, 75, 90, 105, 120, 135, 150, 180})


def _bent_to(sentence: Sentence, value: Quantity) -> bool:
    """Tell the 90 of “bent the flange to 90”, an angle where it is a usual one."""
    bends = sentence.lexicon.acts["fold"]
    verb = any(word.low.split(" ")[0] in bends for word in sentence.words)
    plain = value.step == 1 and not typed_unit(sentence, value)
    for before, word in pairwise(sentence.words):
        if word.whole == value.value and word.sort is Sort.NUMBER:
            led = before.low.split(" ")[-1] in ("to", "at")
            return verb and plain and led and int(value.value) in _ANGLES
    return False
