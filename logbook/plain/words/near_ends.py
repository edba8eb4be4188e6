"""Names of parts by their last words, so that a slip is looked for among few of many.

A line is looked over at each letter; a shop can have a thousand parts.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence


class NearEnds:
    """Where the names stand that end in a word, but for one letter of it.

    One letter dropped, added, or swapped with the next leaves the first letter as it
    is, or one of the first two comes to the other's place.
    """

    def __init__(self, ends: Iterable[str]) -> None:
        """Take the last word of each name, in the order of the names."""
        self._first: dict[tuple[str, int], list[int]] = defaultdict(list)
        self._second: dict[tuple[str, int], list[int]] = defaultdict(list)
        for at, word in enumerate(ends):
            self._first[word[:1], len(word)].append(at)
            self._second[word[1:2], len(word)].append(at)

    def of(self, word: str) -> Sequence[int]:
        """Give where names stand that may end so, in order: all that do, few others."""
        return sorted({*self._near(word)})

    def _near(self, word: str) -> Iterator[int]:
        for size in (len(word) - 1, len(word), len(word) + 1):
            for letter in {word[:1], word[1:2]}:
                yield from self._first.get((letter, size), ())
            yield from self._second.get((word[:1], size), ())
