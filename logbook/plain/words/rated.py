"""What a thing is rated for, beside what was measured: 24 V supply reads 23.8 V.

And how fast it turns, which is read of it: the fan turns 1150 rpm.
"""

from __future__ import annotations

from dataclasses import replace

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.joined import join_where, join_words

_RATED = frozenset({"voltage", "power", "current", "resistance", "frequency"})
_NO_NOUN = frozenset(
    {"preposition", "article", "joiner", "is", "wanted", "wanted_after", "off",
     "off_strong", "negation", "because", "measures", "filler", "state",
     "place"}
)  # fmt: skip


def join_rated(words: list[Word], line: str) -> list[Word]:
    """Join the 24 V of “24 V supply reads 23.8 V” with the noun it is a rating of.

    A figure is a rating where one of its kind follows that is of no noun.
    """
    words = [_of_its_kind(words, at) for at in range(len(words))]

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        if not _rates(words, at):
            return None
        noun = words[at + 1]
        if noun.name is not None:
            return 1, replace(words[at], sort=Sort.CODE, amounts=(), unit="")
        before = [one for one in words[max(0, at - 2) : at] if not _leads(one)]
        beside = any("preposition" in one.tags for one in before)
        tags = frozenset({"filler" if beside else "structure"})
        joined = join_words(line, words[at : at + 2], sort=Sort.WORD, tags=tags)
        return 2, replace(joined, amounts=(), unit="", whole=None)

    return join_where(words, join)


def _of_its_kind(words: list[Word], at: int) -> Word:
    """Give the bare 23.6 of “24 V supply gives 23.6” the unit of the rating."""
    word, led = words[at], words[at - 1] if at else None
    bare = word.sort is Sort.NUMBER and not word.unit and word.has_decimals
    if not bare or led is None or "is" not in led.tags:
        return word
    behind = words[at + 1] if at + 1 < len(words) else None
    ends = behind is None or behind.sort is Sort.MARK or behind.low in _GOES_ON
    if not ends:
        return word  # 5.02 across: no watts.
    rated = [
        one
        for place, one in enumerate(words[:at])
        if one.dimension in _RATED and _of_noun(words, place)
    ]
    return replace(word, unit=rated[0].unit) if len(rated) == 1 else word


TURNS = "turns"
"""The tag of the verb before a speed that was read of what turns."""
_ROTATES = frozenset({"turns", "spins", "runs", "rotates", "revolves", "idles"})


def tell_speeds(words: list[Word]) -> list[Word]:
    """Take the verb before so many rpm as one of what was read, but of a machine."""
    found = list(words)
    for at, word in enumerate(words):
        figure = words[at + 1] if at + 1 < len(words) else None
        turns = at > 0 and word.low.removesuffix(" at") in _ROTATES
        sized = figure is not None and figure.dimension == "rotation"
        if turns and sized and "tool" not in words[at - 1].tags:
            found[at] = replace(word, tags=frozenset({"is", TURNS}))
    return found


_GOES_ON = frozenset({"at", "with", "under", "after", "on", "when", "and", "now"})


def _rates(words: list[Word], at: int) -> bool:
    word = words[at]
    if word.dimension not in _RATED or not _of_noun(words, at):
        return False
    named = at > 0 and _leads(words[at - 1])
    reads = at == 0 and len(words) > _VERB and "is" in words[_VERB].tags
    named = named or reads  # 0.5 A fuse measured 0.9 ohm.
    return any(
        not _of_noun(words, place)
        and (later.dimension == word.dimension or (named and later.sort is Sort.NUMBER))
        for place, later in enumerate(words)
        if place > at
    )


_VERB = 2
"""Where the verb stands in “24 V supply reads 23.8 V”."""


def _leads(word: Word) -> bool:
    return "article" in word.tags


def _of_noun(words: list[Word], at: int) -> bool:
    noun = words[at + 1] if at + 1 < len(words) else None
    if noun is None or noun.sort is not Sort.WORD:
        return False
    verb = any(tag.endswith((":past", ":now")) for tag in noun.tags)
    return noun.name is not None or not (noun.tags & _NO_NOUN or verb)
