"""What is missing where it belongs, or bottoms: a foot missing under the base."""

from __future__ import annotations

from logbook.plain.words.clauses import clauses, find_cure
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence

_ELSEWHERE = frozenset(
    {"box", "bag", "kit", "parcel", "delivery", "order", "list", "drawing", "drawings",
     "drawer", "tin", "shop", "file", "plan", "guide", "photo", "package", "set"}
)  # fmt: skip
"""Where what is missing was never built in."""
_WHERE = frozenset({"on", "in", "under", "at", "from", "between", "behind", "inside"})


def missing_at(sentence: Sentence) -> int | None:
    """Give the missing of “two pegs missing on the rack”: of a thing, where it belongs.

    Where the line tells no place it is one if it was made good: cut new ones.
    """
    rows = [*clauses(sentence)]
    for at in range(1, rows[0][1] if rows else 0):
        thing, behind = sentence.words[at - 1], sentence.words[at + 1 : rows[0][1]]
        said = sentence.words[at].low.split(" ")
        if said[-1] != "missing" or thing.sort is not Sort.WORD or sentence.has("todo"):
            continue
        lows = {low for word in behind for low in word.low.split(" ")}
        led = bool(behind) and behind[0].low.split(" ")[0] in _WHERE
        placed = led and not lows & _ELSEWHERE and "article" not in thing.tags
        if placed or (not behind and find_cure(sentence) is not None):
            return at
    return None


def bottoms_at(sentence: Sentence) -> int | None:
    """Give the bottoms of “M3x10 bottoms in the inserts”: it goes in no further."""
    for at in sentence.tagged("fail"):
        if sentence.words[at].low.partition("bottom")[1]:
            return at
    return None
