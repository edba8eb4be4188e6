"""The thing whose size a line tells: the pulley of “pulley runout 0.06”.

A feature has sizes too and is none (flange angle, hole depth), and some sizes lie
between two things (gap, spacing): these name no part.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.plain.named.name_places import after_when
from logbook.plain.named.names import after_leads, is_component, is_thing, singular
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence

_LONGEST = 2
_TOLD = frozenset({"is", "measure", "absent", "vague", "off", "really", "wanted"})
_FEATURES = frozenset({"structure", "fastener", "material", "stock_form", "tool"})


def sized_thing(sentence: Sentence) -> list[int]:
    """Give what a line begins with and tells a size of, [] where that is a feature."""
    first = at = after_leads(sentence, after_when(sentence))
    while at - first <= _LONGEST and _names_a_thing(sentence, at):
        at += 1
    run = [*range(first, at)][:_LONGEST]
    while sentence.word(at) and sentence.words[at].low in _WHICH:
        at += 1
    if len(run) == 1 and _is_limb_with_value(sentence, at):
        return run
    if not run or at - first > _LONGEST + 1 or not _is_own_size(sentence, at):
        return []
    told = bool(first) and bool(sentence.tags(0) & {"absent", "absent_of_size"})
    return run if told or _value_follows(sentence, at + 1) else []


_WHICH = frozenset(
    {"free", "minor", "major", "overall", "total", "clear", "inner", "outer", "inside",
     "outside", "finished"}
)  # fmt: skip


def is_surely_one(sentence: Sentence, run: Sequence[int]) -> bool:
    """Tell a thing of its own from a noun that may be a feature of another."""
    names = sentence.lexicon.names
    name = " ".join(singular([sentence.words[at].low for at in run]))
    own = is_thing(sentence, run) or name in names["sized"]
    return own and name not in names["limbs"]


def _names_a_thing(sentence: Sentence, at: int) -> bool:
    word = sentence.word(at)
    if word is None or word.sort is not Sort.WORD or word.name is not None:
        return False
    if "measures" in word.tags or not word.low.isalpha() or len(word.low) < _SHORTEST:
        return False
    names = sentence.lexicon.names
    (one,) = singular([word.low])
    if one in names["openings"] or is_component(sentence, at):
        return False
    if one in names["sized"] | names["limbs"]:
        return True
    return not word.tags or (one in names["things"] and not word.tags & _FEATURES)


def _is_limb_with_value(sentence: Sentence, at: int) -> bool:
    """See “crown 188 front to back”: what is so big is the crown, of whatever it is."""
    figure, behind = sentence.word(at), sentence.tags(at + 1)
    limb = singular([sentence.words[at - 1].low])[0] in sentence.lexicon.names["limbs"]
    if not limb or figure is None or figure.sort not in FIGURES:
        return False
    exact = figure.has_decimals or figure.dimension not in ("", "time", "count")
    return exact or bool(behind & {"length_adjective", "place", "off_strong"})


_SHORTEST = 3


def _is_own_size(sentence: Sentence, at: int) -> bool:
    """Tell a size of the thing before it, or what it weighs or reads."""
    word = sentence.word(at)
    if word is not None and "measure:now" in word.tags:
        return True
    if word is None or "measures" not in word.tags or "is" in word.tags:
        return False
    return word.name is None and word.low not in sentence.lexicon.names["between"]


def _value_follows(sentence: Sentence, at: int) -> bool:
    word: Word | None = sentence.word(at)
    while word is not None and word.sort not in FIGURES:
        if "absent" in word.tags:
            return True
        if not word.tags & _TOLD and word.low not in (":", "="):
            return False
        at += 1
        word = sentence.word(at)
    return word is not None
