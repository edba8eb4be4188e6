"""What one of several costs, in a line that buys them: 4.20 a pair, 6.35 each."""

from __future__ import annotations

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.joined import join_where, join_words

PRICE = "price"
"""The tag of a figure that is money, though no currency was typed with it."""
_BUYS = frozenset({"order_done", "order_got", "order_wish"})
_EACH = frozenset({"each", "apiece", "ea", "a piece", "per piece", "a pop"})
_LED = frozenset({"a", "an", "the", "per"})
_LOTS = frozenset(
    {"pair", "box", "pack", "packet", "bag", "set", "roll", "metre", "meter", "m",
     "sheet", "length", "dozen", "hundred", "100", "kilo", "kg", "litre", "liter",
     "tin", "tube", "pot", "reel", "spool", "strip", "board", "piece", "yard", "foot"}
)  # fmt: skip
_PENCE = 2


def join_priced(words: list[Word], line: str) -> list[Word]:
    """Join a price with what it is for, in a line that buys something."""
    if not any(word.tags & _BUYS and word.name is None for word in words):
        return words

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        word, lows = words[at], [one.low for one in words[at + 1 : at + 3]]
        amount = word.amounts[0] if word.amounts else ""
        pence = amount.replace(",", ".").partition(".")[2]
        bare = word.sort is Sort.NUMBER and not word.unit
        if not bare or len(pence) != _PENCE or not lows:
            return None
        size = 2 if lows[0] in _EACH else 0
        size = size or (3 if lows[0] in _LED and lows[-1] in _LOTS else 0)
        if not size:
            return None
        tags = word.tags | {PRICE}
        return size, join_words(line, words[at : at + size], tags=tags)

    return join_where(words, join)
