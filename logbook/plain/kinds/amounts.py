"""Amounts of what is measured out, left or used: 2 m of cable left, 6 m of wire."""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.verbs import first_past
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence, parts_named

LEFT = frozenset({
    "left over", "leftover", "left", "spare", "spares", "to spare", "remaining",
    "in stock", "on hand", "extra",
})  # fmt: skip
"""Words for what is there still; what is missing or too few is neither."""
_MEASURED_OUT = frozenset({"length", "mass", "volume", "area"})


def amount_of(sentence: Sentence) -> int | None:
    """Give where an amount of something stands: 2 m of cable, of wire, of 3 mm ply."""
    for at in _amounts(sentence):
        following = sentence.word(at + 1)
        if following is not None and following.low.split(" ")[0] == "of":
            return at
    return None


def _amounts(sentence: Sentence) -> list[int]:
    """Give where lengths and weights stand that may have been measured out."""
    return [
        at
        for at in sentence.sorts(Sort.NUMBER)
        if sentence.words[at].unit and sentence.words[at].dimension in _MEASURED_OUT
    ]


def what_is_left(sentence: Sentence, at: int) -> int | None:
    """Give where the part is named of which an amount is left: 40 mm of tape."""
    used = amount_of(sentence)
    named = parts_named(sentence)
    return next((one for one in named if used is not None and used < one < at), None)


def left_besides(sentence: Sentence) -> int | None:
    """Give where another amount is said to be left: takes 40 mm of tape, 2 m left."""
    used = amount_of(sentence)
    for at in _amounts(sentence):
        following = sentence.word(at + 1)
        left = following is not None and following.low in LEFT
        if used is not None and at != used and left:
            return at
    return None


def _left_in_containers(sentence: Sentence) -> int | None:
    """See “two cones of cotton left”: what it comes in is neither counted nor made."""
    for at, word in enumerate(sentence.words[:-3]):
        held, of = sentence.words[at + 1], sentence.words[at + 2]
        plain = held.sort is Sort.WORD and held.name is None and not held.tags
        if word.whole is not None and not word.unit and plain and of.low == "of":
            return next(iter(sentence.tagged("count_left")), None)
    return None


def amount_told(sentence: Sentence, _: Values) -> Choice | None:
    """See what is left of something measured out, or was used of it: 2 m of cable.

    It is no size of anything.
    """
    if (left_at := _left_in_containers(sentence)) is not None:
        return Choice(Kind.NOTE, 0.85, left_at)
    at = amount_of(sentence)
    if at is None or first_past(sentence) is not None:
        return None
    if (besides := left_besides(sentence)) is not None:
        kind = Kind.STOCK if what_is_left(sentence, besides) else Kind.NOTE
        return Choice(kind, 0.85, besides + 1)
    left = [one for one in sentence.tagged("count_left") if one > at]
    known = parts_named(sentence) or sentence.named("stock") or sentence.has("material")
    if left and not known:
        return Choice(Kind.NOTE, 0.85, left[-1])
    if left and len(sentence.words) == left[-1] + 1:
        return Choice(Kind.STOCK, 0.85, left[-1])
    if left and sentence.words[left[0]].low in LEFT:
        return Choice(Kind.NOTE, 0.85, left[0])  # Left where, or beside what.
    used = sentence.tagged("used")
    told = used and (used[0] == at - 1 == 0 or used[0] == len(sentence.words) - 1)
    return Choice(Kind.NOTE, 0.85, used[0]) if told else None
