"""A size chosen for the next one: next time drill it 4.2, next build bore 8.3.

What is only to be done otherwise (next time glue first) tells no size and is a note.
"""

from __future__ import annotations

import re

from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence

_NEXT_TIME = re.compile(
    r"(?i)\s*(?P<led>(?:on|for|in|with)\s+)?(?:the\s+)?next\s+"
    r"(?:time|build|(?P<one>ones?)|round|batch|unit)\b\s*(?P<stop>[,:;-])?\s*"
    r"(?:(?:i|we)(?:'d|'ll|\s+(?:would|will|should|must|want to|need to))\s+)?"
)
_HAPPENED = (
    "measure:past", "make:past", "close:past", "fail:past", "fail:now", "off_strong",
    "question", "rework:past", "take_back:past", "order_done", "vague", "is",
)  # fmt: skip
"""What tells of something that has been, or that is only thought of."""
_WHERE = frozenset({"at", ":", "="})
"""What leads to a size to be made as well as to one that was read."""
_DOES = ("make:base", "close:base", "use:base", "rework:base", "take_back:base",
         "order_wish", "imperative_use", "measures", "structure")  # fmt: skip
_ABRADES = ("sand", "polish", "hone", "buff")


def for_next_time_at(sentence: Sentence) -> int | None:
    """Give where what is decided for the next one begins, where it tells a size."""
    lead = _NEXT_TIME.match(sentence.text)
    if lead is None:
        return None
    first = next(
        (
            at
            for at, word in enumerate(sentence.words)
            if word.start >= lead.end() and "article" not in word.tags
        ),
        len(sentence.words),
    )
    told = sentence.words[first : first + 1]
    if not told or not (told[0].tags.intersection(_DOES) or told[0].name is not None):
        return None
    plain = not (lead["led"] or lead["stop"])
    if lead["one"] and plain and "make:past" in told[0].tags:
        return None  # Next one cut 240 long: it was.
    rest = sentence.words[first + 1 :]
    happened = any(
        word.tags.intersection(_HAPPENED) and word.low not in _WHERE for word in rest
    )
    sized = any(_is_size(sentence, word) for word in rest)
    grit = told[0].low.startswith(_ABRADES)
    return first if sized and not happened and not grit else None


def _is_size(sentence: Sentence, word: Word) -> bool:
    """Tell a size, an angle or a warmth from a time, a price and so many of them."""
    if word.sort is Sort.COUNT or word.sort not in FIGURES or not word.amounts:
        return False
    other = word.dimension.startswith(("time", "money", "count"))
    return not other and word not in sentence.settings()
