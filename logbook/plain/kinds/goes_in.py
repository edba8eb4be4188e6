"""Which part goes into which: the shelf board goes into the bracket slot.

It is a note of both parts, so that the room between them is asked about.
"""

from __future__ import annotations

import re

from logbook.plain.kinds.choice import Choice
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.figures import FIGURES
from logbook.plain.words.sentence import Sentence

_GOES = frozenset({"goes", "go", "slides", "drops"})
_INTO = frozenset({"in", "into", "inside", "into the", "in the"})
_TOGETHER = frozenset({"goes in", "goes into", "slides in", "slides into", "drops in"})
_OTHERWISE = frozenset(
    {"fail", "fail:past", "negation", "negative", "off", "off_strong", "because",
     "question", "hypothetical", "wanted", "make:past", "close:past", "cure"}
)  # fmt: skip
_A_RANGE = re.compile(r"\d\s*(?:to|-|–|…|\.\.)\s*[.\d]")


def goes_in(sentence: Sentence, _: Values) -> Choice | None:
    """See one named part go into another, with the room it may have or without."""
    names = [at for at in sentence.named("part") if not sentence.tags(at) & {"away"}]
    if len(names) < 2 or names[0] > 1:
        return None
    inner, outer = names[:2]
    if sentence.words[inner].name == sentence.words[outer].name:
        return None
    if not _leads_into(sentence, inner + 1, outer):
        return None
    if any(word.tags & _OTHERWISE for word in sentence.words if word.name is None):
        return None
    figures = sentence.sorts(*FIGURES)
    if figures and not _A_RANGE.search(sentence.text):
        return None
    return Choice(Kind.NOTE, 0.9, inner + 1)


def _leads_into(sentence: Sentence, start: int, end: int) -> bool:
    """Tell whether only “goes into the” stands between the two."""
    lows = [
        word.low
        for word in sentence.words[start:end]
        if "article" not in word.tags or word.low in _INTO
    ]
    return (len(lows) == 1 and lows[0] in _TOGETHER) or (
        len(lows) == 2 and lows[0] in _GOES and lows[1] in _INTO
    )
