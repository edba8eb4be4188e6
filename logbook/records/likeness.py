"""Whether two lines tell of the same thing: by the words that carry them."""

from __future__ import annotations

import re
from collections.abc import Iterable

_WORD = re.compile(r"[^\W\d_]+")
_STEM = 4
"""Letters of a word that its forms share: rivet, riveted, rivets (common practice)."""

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


def alike(one: str, other: str, but: Iterable[str] = ()) -> bool:
    """Tell whether two lines share a word that carries them, names `but` aside."""
    apart = stems(" ".join(but))
    return bool((stems(one) & stems(other)) - apart)
