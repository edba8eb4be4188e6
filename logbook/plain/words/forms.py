"""How flat, square or leaning a thing is, told with a verb or an adjective.

“Flat within 0.2” is a flatness, “leans in by 0.4°” a lean: without a figure right
behind them the same words tell of work, or of how a thing stands to another.
"""

from __future__ import annotations

from dataclasses import replace

from logbook.plain.words.figures import FIGURES, Word
from logbook.plain.words.joined import join_where, join_words
from logbook.plain.words.lexicon import Lexicon

_TO = frozenset({"to", "within", "to within", "by"})
_WAYS = frozenset(
    {"in", "out", "over", "up", "down", "back", "forward", "forwards", "backwards",
     "inward", "inwards", "outward", "outwards", "left", "right", "off"}
)  # fmt: skip
_MOST_WORDS = 4


def join_forms(words: list[Word], line: str, known: Lexicon) -> list[Word]:
    """Join “flat to within” and “leans in by” before a figure as what was measured."""

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        word = words[at]
        form = known.names["forms"]
        lean = word.low in known.names["leans"] and "measures" in word.tags
        if word.name is not None or not (word.low in form or lean):
            return None
        last = at + 1
        while last < min(len(words), at + _MOST_WORDS):
            low = words[last].low
            if low not in _TO and not (lean and low in _WAYS):
                break
            last += 1
        led = last > at + 1 and words[last - 1].low in (
            _TO - {"by"} if not lean else _TO
        )
        if not led or last >= len(words) or words[last].sort not in FIGURES:
            return None
        tags = (
            word.tags | {"is"} if lean else frozenset({"measures", "measures:length"})
        )
        low = word.low if lean else known.dimension_of[word.low]
        named = join_words(line, words[at:last])
        return last - at, replace(named, low=low, tags=tags, corrected=True)

    return join_where(words, join)
