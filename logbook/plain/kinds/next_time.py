"""What is chosen for the next one: next time drill it 4.2, bed in ash next time.

What is only to be done otherwise (next time glue first) tells no size and is a note.
"""

from __future__ import annotations

import re

from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import STUFF, Sentence, parts_named

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


_LATER = frozenset(
    {"next time", "next one", "from now on", "from here on", "in future"}
)


def in_another_size_at(sentence: Sentence) -> int | None:
    """See “bracket in 1.5 not 2.0 next time”, “bed in ash next time”: what of."""
    lows = [word.low for word in sentence.words]
    if _next_of(sentence) or _works_the_next(sentence):
        return 0
    if not _LATER & set(lows) or not parts_named(sentence):
        return None
    verbs = any(tag.endswith((":past", ":now")) for word in sentence.words
                for tag in word.tags if not tag.startswith("hold"))  # fmt: skip
    for at in range(1, len(lows) - 2):
        stuff = sentence.tags(at + 1) & STUFF and lows[at + 2] in (*_LATER, ",")
        if lows[at] == "in" and stuff and not verbs:
            return at
    for at in range(1, len(lows) - 3):
        figures = [sentence.words[one].sort in _SIZES for one in (at + 1, at + 3)]
        if lows[at] == "in" and all(figures) and lows[at + 2] in ("not", "instead of"):
            return at
    return None


_BEEN = (
    "make:past", "close:past", "fail:past", "fail:now", "measure:past", "is", "todo",
    "question", "order_done", "take_back:past", "rework:past", "hypothetical",
    "guess",
)  # fmt: skip


def sized_next_time_at(sentence: Sentence) -> int | None:
    """See “bracket holes 5.5 next time, 5 too tight”, “next bed 18 mm thick, not 20”.

    A next one of such a size, and no more said, was measured.
    """
    rows = [*clauses(sentence)]
    words = sentence.words[: rows[0][1]] if rows else []
    tags = {tag for word in words for tag in word.tags if word.low not in _LATER}
    named = [at for at, word in enumerate(words) if word.name is not None]
    figures = [at for at, word in enumerate(words) if word.sort in _SIZES]
    if not named or not figures or named[0] > figures[-1] or tags & {*_BEEN}:
        return None
    later = [at for at, word in enumerate(words) if word.low in _LATER]
    if later and later[0] > named[0]:
        return later[0]
    behind = {word.low for word in sentence.words[figures[0] + 1 : figures[0] + 4]}
    size = behind & {"not", "instead of"} or "off_strong" in tags
    return 0 if words[0].low == "next" and named[0] == 1 and size else None


def _next_of(sentence: Sentence) -> bool:
    """See “next diffuser from polycarbonate”, and no more but a reason."""
    first = 1 if "article" in sentence.tags(0) else 0
    words = sentence.words[first : first + 5]
    if len(words) < _NEXT_OF or words[0].low != "next" or words[1].name is None:
        return False
    led = words[2].low in ("from", "in", "out of", "of", "with", "without")
    ends = len(words) == _NEXT_OF or words[_NEXT_OF].low in (",", "because")
    return led and bool(words[3].tags & STUFF) and ends


def _works_the_next(sentence: Sentence) -> bool:
    """See “cut the next mask from 0.5 card”: the next one is still to be made.

    So is “next bracket folded the other way”; where it only was folded, it is a step.
    """
    verb = sentence.tags(2)
    named = sentence.words[0].low == "next" and 1 in parts_named(sentence)
    other = any(word.low.split(" ")[0] == "other" for word in sentence.words[3:])
    if named and "make:past" in verb and other and not sentence.sorts(*FIGURES):
        return True
    next_at = 2 if "article" in sentence.tags(1) else 1
    word, thing = sentence.word(next_at), sentence.word(next_at + 1)
    wanted = bool({"make:base", "close:base"} & sentence.tags(0))
    return wanted and bool(word and word.low == "next" and thing and thing.name)


_NEXT_OF = 4
_SIZES = (Sort.NUMBER, Sort.GAUGE, Sort.THREAD)
