"""What things are called when spoken: names as words, and the ways they are typed."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from logbook.units import is_unit

_HUMP = re.compile(r"(?<=[a-z])(?=[A-Z])")
_WORDS = re.compile(r"[0-9]+(?:[.,][0-9]+)*(?![^\W_])|[^\W_]+(?:['’][^\W_]+)*")


@dataclass(frozen=True, slots=True)
class Name:
    """A name the project uses: its `role` (part, piece, place…) and the thing named.

    `owner` is the part of a characteristic or of a piece.
    """

    role: str
    thing: str
    owner: str = ""


_CUT = 4
"""So many letters of a name, and no more, stand for it: diff, coll."""
_VOWELS = re.compile(r"(?<=.)[aeiou]")


def cuts_short(word: str, name: str) -> bool:
    """Tell whether a word is a name cut short: diff, xbr."""
    begins = len(word) == _CUT and len(name) > _CUT + 1 and name.startswith(word)
    return begins or (word != name and _VOWELS.sub("", name) == word)


def without_number(words: tuple[str, ...]) -> tuple[str, ...]:
    """Leave out the drawing number before a name."""
    return words[1:] if len(words) > 1 and words[0].isdigit() else words


def holds(name: Sequence[str], words: Sequence[str]) -> bool:
    """Tell whether a name holds some words in their order, others between them."""
    if len(name) < len(words):
        return False
    rest = iter(name)
    return all(any(one_word(word, part) for part in rest) for word in words)


_OF_ONE = {
    "feet": "foot", "teeth": "tooth", "shelves": "shelf", "halves": "half",
    "leaves": "leaf", "knives": "knife", "mice": "mouse",
}  # fmt: skip
"""Words of several things that no ending makes, and of one."""
_OF_SEVERAL = {one: several for several, one in _OF_ONE.items()}


def of_one(word: str) -> str:
    """Give the word of one thing for that of several that no ending makes: foot."""
    return _OF_ONE.get(word, word)


def one_word(word: str, other: str) -> bool:
    """Tell whether two words are one, the plural aside."""
    word, other = of_one(word), of_one(other)
    return word == other or word + "s" == other or word == other + "s"


def forms(word: str) -> tuple[str, ...]:
    """Give the words that are one with a word, as `one_word` tells."""
    if word in _OF_ONE or word in _OF_SEVERAL:
        return (of_one(word), _OF_SEVERAL[of_one(word)])
    return (word, word + "s", word[:-1]) if word.endswith("s") else (word, word + "s")


def spoken(called: str) -> tuple[str, ...]:
    """Give the lower-case words of a name: `corner_screw` and `corner-screw` as two."""
    return tuple(word.lower() for word in _WORDS.findall(called))


def without_units(words: tuple[str, ...]) -> tuple[str, ...]:
    """Leave out the units behind numbers: in a line “2 mm” is one figure."""
    return tuple(
        word
        for at, word in enumerate(words)
        if not (at and words[at - 1][0].isdigit() and is_unit(word))
    )


def spoken_ways(called: str, name: Name) -> Iterator[tuple[tuple[str, ...], Name]]:
    """Yield the ways a name is typed, each as its words."""
    words = spoken(called)
    yield words, name
    humps = spoken(_HUMP.sub(" ", called))
    if len(humps) > len(words):
        yield humps, name
    if len(words) > 1:
        for sign in ("-", "_", ""):
            yield (sign.join(words),), name
    if len(words) > 2:
        for at in range(len(words) - 1):
            for sign in ("", "-"):
                joined = f"{words[at]}{sign}{words[at + 1]}"
                yield (*words[:at], joined, *words[at + 2 :]), name
    if words:
        last = words[-1]
        tray = last[-2:-1] in tuple("aeiou")  # Trays and keys, but assemblies.
        plural = last[:-1] + "ies" if last.endswith("y") and not tray else last + "s"
        hissing = (last + "es",) if last.endswith(("s", "x", "ch", "sh", "z")) else ()
        several = (_OF_SEVERAL[last],) if last in _OF_SEVERAL else (plural, *hissing)
        for ending in (*several, last + "'s"):
            yield (*words[:-1], ending), name
