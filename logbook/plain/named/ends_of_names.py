"""A known part told by some words of its longer name: the foot of a quadruped foot."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.plain.named.names import name_run, singular
from logbook.plain.named.unnamed import Unnamed, which_part
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.lexicon import Lexicon
from logbook.plain.words.sentence import Sentence
from logbook.plain.words.spoken import of_one, one_word, spoken

LONGEST_NAME = 4
"""So many words are taken for one name at most."""


def middle_of_a_name(sentence: Sentence) -> Unnamed | None:
    """Know a part by words that only its name has: upper leg, of the left side."""
    words = sentence.words
    for size in range(LONGEST_NAME, 1, -1):
        for at in range(len(words) - size + 1):
            row = words[at : at + size]
            if any(one.sort is not Sort.WORD or one.name is not None for one in row):
                continue
            lows = tuple(one.low for one in row)
            longer = sentence.vocabulary.containing(lows)
            if len(longer) != 1:
                continue
            if is_headed(sentence.lexicon, longer[0], lows):
                return Unnamed(lows, longer[0])
            said = singular([*lows])
            return Unnamed(lows, "", which_part(longer, (" ".join(said),)), placed=True)
    return None


def sure_end(sentence: Sentence) -> Unnamed | None:
    """Know the one part whose longer name ends so: foot, of “quadruped foot”.

    Only words that can name a part by themselves do; behind a number a foot is a unit.
    """
    for at, word in enumerate(sentence.words):
        before = sentence.word(at - 1) if at else None
        measured = _measured(word, before)
        if word.low not in sentence.lexicon.names["alone"] or measured:
            continue
        [one] = singular([word.low])
        longer = sentence.vocabulary.containing((one,))
        ends = [name for name in longer if is_headed(sentence.lexicon, name, (one,))]
        both = before is not None and before.low == "both"
        run = name_run(sentence, at - 1) if at and not both else []
        if len(longer) == len(ends) == 1 and len(run) < 2:
            if other := _of_another_side(sentence, at, longer[0]):
                return Unnamed(
                    other, "", which_part(longer, (" ".join(other),)), placed=True
                )
            return Unnamed(_as_far_as_named(sentence, at, longer[0]), longer[0])
    return None


def _as_far_as_named(sentence: Sentence, at: int, name: str) -> tuple[str, ...]:
    """Give the words up to a place that its name has too: the upper of upper leg."""
    called, start = spoken(name), at
    while start and sentence.words[start - 1].low in called:
        start -= 1
    return tuple(word.low for word in sentence.words[start : at + 1])


def _measured(word: Word, before: Word | None) -> bool:
    """Tell the foot of “1.2 foot”, a unit, from those of “4 feet”, where it counts."""
    if before is None or before.sort not in (Sort.NUMBER, Sort.COUNT):
        return False
    return before.whole is None or of_one(word.low) == word.low


_OPPOSITE = {
    "left": "right", "upper": "lower", "top": "bottom", "front": "rear",
    "inner": "outer", "long": "short", "big": "small",
}  # fmt: skip
_OPPOSITE |= {other: one for one, other in _OPPOSITE.items()} | {"back": "front"}


def _of_another_side(sentence: Sentence, at: int, name: str) -> tuple[str, ...]:
    """Give the words for what a name says otherwise: lower leg, of an upper leg."""
    start = at
    while start and sentence.words[start - 1].low in _OPPOSITE:
        start -= 1
    said = [word.low for word in sentence.words[start:at]]
    called = spoken(name)
    other = any(_OPPOSITE[one] in called and one not in called for one in said)
    return (*said, sentence.words[at].low) if other else ()


def is_headed(known: Lexicon, name: str, said: Sequence[str]) -> bool:
    """Tell whether a name is of a thing so called: upper leg left side.

    A front alone is not the name: a foil frame spacer is no foil frame.
    """
    sides = known.names["sides"]
    behind = spoken(name)
    for end in (said[-1], "".join(said[-2:])):
        for at, word in enumerate(behind):
            if one_word(word, end):
                return all(one in sides or one.isdigit() for one in behind[at + 1 :])
    return False


def end_of_a_name(sentence: Sentence, places: range) -> Unnamed | None:
    """Ask about the foot that may be the one part whose name ends so."""
    for at in places:
        word = sentence.words[at]
        led = at == 0 or bool(sentence.tags(at - 1) & {"article"})
        done = bool(at and {"make:past", "close:past"} & sentence.tags(at - 1))
        if not (led or done) or "structure" not in word.tags or word.name is not None:
            continue
        if two := _longer_known(sentence, at):
            return two
        longer = sentence.vocabulary.containing((word.low,))
        ends = [name for name in longer if spoken(name)[-1:] == (word.low,)]
        if ends:
            return Unnamed((word.low,), "", which_part(ends), placed=True)
    return None


def _longer_known(sentence: Sentence, at: int) -> Unnamed | None:
    """See a known name go on: the wall track is one of the tracks, and no wall."""
    word, following = sentence.words[at], sentence.word(at + 1)
    if following is None or following.sort is not Sort.WORD or following.name:
        return None
    words = singular([word.low, following.low])
    longer = sentence.vocabulary.containing(words)
    if not longer:
        return None
    said = (word.low, following.low)
    one = longer[0] if len(longer) == 1 else ""
    return Unnamed(said, one, None if one else which_part(longer), placed=True)
