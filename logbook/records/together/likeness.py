"""Whether two lines tell of the same thing, or of the same trouble, by their words."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

_WORD = re.compile(r"[^\W\d_]+")
_STEM = 4
"""Letters of a word that its forms share: rivet, riveted, rivets (common practice)."""

_ROOT = 5
_SHORTEST = 3
_EMPTY = frozenset(
    (
        *("the", "and", "for", "was", "were", "are", "not", "has", "had", "have"),
        *("with", "from", "into", "onto", "out", "off", "but", "because", "that"),
        *("this", "then", "than", "its", "too", "again", "still", "while", "when"),
        *("which", "what", "one", "new", "only"),
    )
)


def stems(words: str) -> frozenset[str]:
    """Give the beginnings of the words of a line that carry its meaning."""
    found = (word.casefold() for word in _WORD.findall(words))
    return frozenset(
        word[:_STEM] for word in found if len(word) >= _SHORTEST and word not in _EMPTY
    )


_MANY = re.compile(r"(?i)(?<=[a-z]{2})(?:(?<=sh)es|(?<![su])s)\b")


def single(words: str) -> str:
    """Give words as they are compared: each thing as one of it, M3 x 8 as M3x8."""
    words = re.sub(r"(?i)\bfeet\b", "foot", words)
    return _MANY.sub("", re.sub(r"\s*[x×]\s*(?=\d)", "x", words.casefold()))


_CLAUSE = re.compile(r"[;:()]\s*|[,.](?!\d)\s*")
_WHERE = re.compile(
    r"(?i)\s*\b(?:at|on|in|beside|near|with|by|under|over|along|between|behind|from|to|"
    r"into|of|after|before|because|when|while|as|since|through|during|like)\b.*"
)
"""From where on a clause tells where, when or why, and not what happened."""
_ENDING = re.compile(r"(?:([b-df-hj-np-tv-z])\1)?(?:ed|ing|s)$")
_COMMON = frozenset(
    (
        *("can", "cannot", "could", "does", "did", "made", "make", "went", "came"),
        *("got", "put", "bit", "little", "badly", "slightly", "first", "second"),
        *("piece", "part", "build", "print", "printed", "wrong", "bad", "failed"),
        *("should", "drawn", "measure", "measures", "measured", "size", "sizes"),
    )
)
"""Words that many lines of trouble have in common, whatever it was."""


def same_trouble(one: str, other: str, names: Iterable[str] = ()) -> bool:
    """Tell whether two lines tell that the same happened: sagged, sags, sagged again.

    Neither the `names` of parts count nor where, when and why it happened: a lid that
    cracked at the cable notch is not one that was riveted on over the cable.
    """
    apart = {word for name in names for word in _roots(name)}
    return bool((_trouble(one) & _trouble(other)) - apart)


def _trouble(line: str) -> frozenset[str]:
    told = (_WHERE.sub("", clause) or clause for clause in _CLAUSE.split(line))
    return frozenset(root for clause in told for root in _roots(clause))


def _roots(words: str) -> Iterator[str]:
    """Give the words that carry a line without the endings of their forms."""
    for word in map(str.casefold, _WORD.findall(words)):
        if len(word) >= _SHORTEST and word not in _EMPTY | _COMMON:
            yield _ENDING.sub(r"\1", word)[:_ROOT]
