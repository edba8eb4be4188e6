"""Of how many pieces a line tells: both legs 402, each upright 99.8, gates 1 and 2."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence
from logbook.plain.words.spoken import of_one, spoken

EVERY = -1
"""All pieces that there are, however many."""
_EVERY = frozenset({"all", "each", "every"})
_OF_ONE = frozenset({"each", "every"})
_NOT_ALL = frozenset({"not", "almost", "nearly", "neither", "of"})
_MOST = 20
_JOINED = frozenset({"and", "&", ","})


def so_many(sentence: Sentence, at: int) -> dict[str, Any]:
    """Give of how many pieces the part named at a place is said, where of several."""
    words, led = sentence.words, ""
    counted: Word | None = None
    row: list[Word] = []
    start = at
    while start and _leads(words[start - 1]):
        start -= 1
        word = words[start]
        led = word.low if word.low in _EVERY or word.low == "both" else led
        counted = word if word.whole is not None else counted
        row.append(word)
    several = _is_of_several(words[at])
    before = sentence.word(start - 1) if start else None
    if (of_them := _out_of(sentence, start)) is not None:
        led, counted, row = "", of_them, [of_them]
    elif before is not None and before.low in _NOT_ALL:
        return {}
    if not several and led not in _OF_ONE:
        return {}
    many = _said(led, counted)
    if not many:
        return {}
    told = [word for word in row if word is counted or word.low == led]
    sentence.note("so_many", *told)
    return {"so_many": many}


def _out_of(sentence: Sentence, start: int) -> Word | None:
    """Give the two of “two of the three masks”, and of “2 of the masks”."""
    at = start - 1
    if at < 1 or sentence.words[at].low.split(" ")[0] != "of":
        return None
    word = sentence.words[at - 1]
    bare = word.sort in (Sort.NUMBER, Sort.COUNT) and not word.unit
    return word if bare and word.whole is not None else None


def only_counted(sentence: Sentence) -> bool:
    """Tell whether it was a bare count: cut 6 slats, not filed both crossbars."""
    told = {word.low for word in sentence.spans.get("so_many", [])}
    return not told & {*_EVERY, "both"}


def _said(led: str, counted: Word | None) -> int:
    number = counted.whole or 0 if counted is not None else 0
    if led == "both":
        return 2
    if 1 < number <= _MOST:
        return number
    return EVERY if led and not number else 0


def _leads(word: Word) -> bool:
    """Tell whether a word may stand between “all” and the part: four, left, thin."""
    if word.sort in (Sort.NUMBER, Sort.COUNT):
        return word.whole is not None and not word.unit
    between = word.tags & {"article", "adjective", "place"}
    return word.sort is Sort.WORD and word.name is None and bool(between)


def _is_of_several(word: Word) -> bool:
    """Tell whether a part is named as several of it: legs, feet."""
    said = spoken(word.text)[-1:]
    return bool(said) and (said[0].endswith("s") or of_one(said[0]) != said[0])


_NUMBER = re.compile(r"\d+")


def pieces_told(sentence: Sentence, at: list[int]) -> tuple[int, ...]:
    """Give the numbers of the pieces named together: gate 1 and gate 2, gates 1, 2.

    Nothing where only one is: what is named elsewhere in a line is another matter.
    """
    numbers = _numbers(sentence.words[at[0]])
    apart = _each_with_its_own(sentence, at)
    for before, after in pairwise(at):
        between = sentence.words[before + 1 : after]
        joined = between and all(word.low in _JOINED for word in between)
        if not joined and not apart:
            break
        numbers += _numbers(sentence.words[after])
        sentence.note("pieces", sentence.words[after])
    if len({*numbers}) < 2:
        return ()
    sentence.note("pieces", sentence.words[at[0]])
    return tuple(dict.fromkeys(numbers))


def _each_with_its_own(sentence: Sentence, at: list[int]) -> bool:
    """Tell whether each piece is followed by one value: bracket 1 36.1, bracket 2 36.3.

    Nothing else may stand between them, but what leads to a value or joins.
    """
    for here, following in pairwise([*at, len(sentence.words)]):
        row = sentence.words[here + 1 : following]
        figures = [word for word in row if word.sort is Sort.NUMBER]
        plain = all(
            word.sort in (Sort.NUMBER, Sort.MARK)
            or word.tags & {"is", "joiner", "measures", "filler"}
            for word in row
        )
        if len(figures) != 1 or not plain:
            return False
    return len(at) > 1


def _numbers(word: Word) -> list[int]:
    """Give the numbers of the pieces that a word names: those of “gates 1 and 2”."""
    thing, owner = (word.name.thing, word.name.owner) if word.name else ("", "")
    named = thing.removeprefix(owner) if thing.startswith(owner) else ""
    return [int(one) for one in _NUMBER.findall(named)]


def numbers_told(sentence: Sentence) -> tuple[int, ...]:
    """Give the pieces told of by their numbers, else 1, 2 … where only by a count."""
    named = [one for word in sentence.spans.get("pieces", []) for one in _numbers(word)]
    if named:
        return tuple(sorted({*named}))
    counted = sentence.spans.get("so_many", [])
    whole = next((word.whole for word in counted if word.whole is not None), 0)
    both = any(word.low == "both" for word in counted)
    return tuple(range(1, (2 if both else whole or 0) + 1))


def meant_of(here: list[int], count: int, following: int) -> tuple[int, ...]:
    """Give so many pieces: the newest of those there are, and as many as it lacks."""
    lacking = max(count - len(here), 0)
    return (*here[-count:], *range(following, following + lacking))
