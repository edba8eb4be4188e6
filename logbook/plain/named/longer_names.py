"""A known part whose name goes on in the line, or that others are called like."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.plain.named.names import singular
from logbook.plain.named.unnamed import Unnamed, which_part
from logbook.plain.words.figures import Sort
from logbook.plain.words.lexicon import one_slip
from logbook.plain.words.sentence import Sentence
from logbook.plain.words.spoken import spoken


def longer_name(sentence: Sentence, named: list[int]) -> Unnamed | None:
    """Doubt a known part whose name goes on: “lamp bracket” with only lamp known."""
    heads = sentence.lexicon.names["heads"]
    for at in named:
        if (begun := _begun_otherwise(sentence, at)) is not None:
            return begun
        word, following = sentence.words[at], sentence.word(at + 1)
        alike = sentence.vocabulary.alike(word.name.thing) if word.name else ()
        if len(alike) > 1 and not _numbered_so(word.text, alike):
            others = tuple(dict.fromkeys((*_with_neighbours(sentence, at), *alike)))
            return Unnamed(spoken(word.text), others[0], which_part(others))
        if following is None or following.low not in heads or following.tags:
            continue
        if word.name is None or word.name.role != "part" or word.low.endswith("'s"):
            continue
        last = at + 1
        while sentence.tags(last + 1) == frozenset() and _goes_on(sentence, last + 1):
            last += 1
        words = singular([sentence.words[one].low for one in range(at, last + 1)])
        longer = sentence.vocabulary.containing(words)
        longer = longer or sentence.vocabulary.having({*words})
        if not longer and last == at + 1 and _limb_measured(sentence, words, last):
            continue
        doubt = which_part(longer, (" ".join(words), word.name.thing))
        return Unnamed(words, "", doubt)
    return None


def _begun_otherwise(sentence: Sentence, at: int) -> Unnamed | None:
    """See a name told by its end, behind another word than the one it has there.

    The moter plate is a slip of the motor plate; a tip rack may be no etips rack.
    """
    word, before = sentence.words[at], sentence.word(at - 1) if at else None
    if before is None or word.name is None or word.name.role != "part":
        return None
    said, title = spoken(word.text), spoken(word.name.thing)
    dropped = title[: -len(said)] if title[-len(said) :] == said else ()
    whole = (before.low, *said)
    if not (dropped or said == title) or not _may_begin(sentence, at - 1):
        return None
    if dropped and _slipped(before.low, dropped[-1]):
        return Unnamed(whole, word.name.thing)
    others = sentence.vocabulary.having({*said}, {before.low})
    near = (word.name.thing, *others)
    return Unnamed(whole, "", which_part(near, (" ".join(whole),)))


def _slipped(word: str, meant: str) -> bool:
    """Tell a slip in a word of four letters or more: moter, and no rotor, for motor."""
    long = len(word) > 3 and word[0] == meant[0]
    return long and one_slip(word, meant, replaced=True)


def _may_begin(sentence: Sentence, at: int) -> bool:
    """Tell whether a word before a name may be one of it: no side, no verb."""
    word = sentence.words[at]
    if word.sort is not Sort.WORD or word.name is not None:
        return False
    names = sentence.lexicon.names
    if word.low in names["sides"] or word.low.endswith(("ed", "ing", "ly")):
        return False
    leads = word.low in names["leads"]
    return leads or (word.low.isalpha() and len(word.low) > 2 and not word.tags)


_LIMBS = frozenset({"arm", "arms", "flange"})
_SIZED = frozenset({"length", "width", "height", "thickness", "radius", "angle"})


def _limb_measured(sentence: Sentence, words: Sequence[str], at: int) -> bool:
    """Tell whether a limb of a part is measured: the arm length of a bracket.

    What people make apart, as a lamp arm, is no limb.
    """
    behind = sentence.word(at + 1)
    if " ".join(words) in sentence.lexicon.names["things"]:
        return False
    limb = sentence.words[at].low in _LIMBS
    return limb and behind is not None and behind.low in _SIZED


def _numbered_so(said: str, alike: Sequence[str]) -> bool:
    """Tell whether the number of its name was typed too: the 1009 Z Motor Lock."""
    words = spoken(said)
    return any(one.isdigit() for one in words) and any(
        spoken(name) == words for name in alike
    )


def _with_neighbours(sentence: Sentence, at: int) -> tuple[str, ...]:
    """Give the parts called by a name and the word beside it: camera mount hood."""
    said, known = {*spoken(sentence.words[at].text)}, sentence.vocabulary
    for one in (at + 1, at - 1):
        word = sentence.word(one) if one >= 0 else None
        if word is None or word.sort is not Sort.WORD or word.name is not None:
            continue
        if known.titled(word.low) and (found := known.having(said | {word.low})):
            return found
    return ()


def _goes_on(sentence: Sentence, at: int) -> bool:
    word = sentence.word(at)
    return word is not None and word.low in sentence.lexicon.names["heads"]
