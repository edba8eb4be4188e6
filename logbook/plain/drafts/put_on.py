"""Whether words tell that a part is put on or fastened: the lid is on, mounted it.

Nobody says each time in the words of the step that the lid was screwed on. Whatever
the words, and with a slip of the hand in them, it is on: what had to be inside is
shut in.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from logbook.plain.words.lexicon import lexicon, one_slip

_TOKEN = re.compile(r"[a-z0-9]+(?:['’-][a-z]+)*|[,;:.!]")
_ARTICLES = frozenset({"the", "a", "its", "my", "our", "this", "that"})
_PUT = frozenset({"put", "set", "laid", "placed", "got", "dropped", "slid", "pushed"})
_BETWEEN = frozenset({
    "is", "are", "was", "has", "been", "got", "now", "all", "finally", "back", "just",
    "already",
})  # fmt: skip
_THERE = frozenset({"on", "done", "finished", "down"})
_WAY = frozenset({"on", "down", "back", "shut", "up", "onto", "over", "to", "in"})
_BEHIND = frozenset({
    "with", "and", "again", "now", "at", "using", "by", "today", "after", "in", "tight",
    "for", "but", "then", "so", "properly", "finally", "already",
})  # fmt: skip
"""What may stand behind it; another word may name what else it was put on or to."""


def put_on(words: str, names: Iterable[str]) -> bool:
    """Tell whether words say that a part of one of these names is put on."""
    tokens = _TOKEN.findall(words.casefold())
    return any(
        _is_on(tokens, start, end)
        for name in names
        for start, end in _found(tokens, _TOKEN.findall(name.casefold()))
    )


def _found(tokens: Sequence[str], name: Sequence[str]) -> Iterator[tuple[int, int]]:
    for at in range(len(tokens) - len(name) + 1):
        if name and list(tokens[at : at + len(name)]) == list(name):
            yield at, at + len(name)


def _is_on(tokens: Sequence[str], start: int, end: int) -> bool:
    verb = ["", *(word for word in tokens[:start] if word not in _ARTICLES)][-1]
    behind = list(tokens[end:])
    while behind and behind[0] in _BETWEEN:
        behind = behind[1:]
    if _fastens(verb):
        return _ends(behind) or behind[0] in _WAY
    if verb in _PUT:
        return behind[:1] in (["on"], ["down"]) and _ends(behind[1:])
    if not behind or verb == "not":
        return False
    if _fastens(behind[0]):
        return _ends(behind[1:]) or behind[1] in _WAY
    return behind[0] in _THERE and _ends(behind[1:])


def _ends(behind: Sequence[str]) -> bool:
    return not behind or behind[0] in _BEHIND or not behind[0][0].isalpha()


def _fastens(word: str) -> bool:
    """Tell a verb of fastening, also where one slip of the hand made no word of it."""
    known = lexicon().acts["on"]
    if word in known or word in lexicon().phrases or len(word) < 5:
        return word in known
    return any(one_slip(word, one, replaced=True) for one in known)
