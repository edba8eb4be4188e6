"""Nouns of things typed with a slip of the keys: baord, hingge, suport."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.plain.words.lexicon import Lexicon

_LISTS = ("heads", "things", "components", "alone")
_SHORTEST = 5


def noun_put_right(word: str, lexicon: Lexicon) -> str:
    """Give the one noun of things that `word` misspells by a slip, or nothing.

    Two letters changed over, or one typed twice or only once, make no other word; any
    other letter may: a strand is no stand.
    """
    if len(word) < _SHORTEST or not word.isalpha():
        return ""
    known = [lexicon.names[one] for one in _LISTS]
    if any(word in row for row in known):
        return ""
    meant = {one for one in _slips(word) if any(one in row for row in known)}
    return meant.pop() if len(meant) == 1 else ""


def _slips(word: str) -> Iterator[str]:
    for at, letter in enumerate(word):
        following = word[at + 1 : at + 2]
        yield word[:at] + letter + word[at:]
        if following == letter:
            yield word[:at] + word[at + 1 :]
        elif following:
            yield word[:at] + following + letter + word[at + 2 :]
