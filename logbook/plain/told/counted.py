"""What was counted, and as what: used, or left over; what is left of a length."""

from __future__ import annotations

import re
from typing import Any

from logbook.plain.kinds.amounts import LEFT, amount_of, left_besides, what_is_left
from logbook.plain.kinds.choice import Choice
from logbook.plain.named.names import singular
from logbook.plain.told.part import part_named
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence
from logbook.plain.words.spoken import spoken

LEFT_OVER = "left over"
USED = "used"


def what_was_counted(sentence: Sentence, _: Choice) -> dict[str, Any]:
    """Give what was counted, how many, and how many were listed."""
    numbers = [
        at
        for at, word in enumerate(sentence.words)
        if word.whole is not None and not word.unit
    ]
    listed = _listed_at(sentence, numbers)
    told = [at for at in numbers if at != listed]
    facts: dict[str, Any] = {}
    if told:
        sentence.note("quantity", sentence.words[told[0]])
        facts["quantity"] = sentence.words[told[0]].whole
        facts["counted_as"] = _as_what(sentence, told[0])
        facts.update(_left_besides(sentence, told[1:]))
    if listed is not None:
        sentence.note("listed", sentence.words[listed])
        facts["listed"] = sentence.words[listed].whole
    for at in numbers:
        noun = _noun_counted(sentence, at)
        if noun is not None:
            sentence.note("counted", noun)
            return {**facts, "counted": _counted_part(sentence, noun)}
    return {**facts, **_by_thread(sentence)}


_BETWEEN = frozenset({"article", "adjective", "preposition", "filler", "material"})
_NEAR = 3


def _noun_counted(sentence: Sentence, at: int) -> Word | None:
    """Give the noun that a number counts: 6 of the small springs."""
    for ahead, word in enumerate(sentence.words[at + 1 :], 1):
        plural = word.low.endswith("s") and not word.low.endswith("ss")
        if word.sort is Sort.WORD and plural:
            return word
        if ahead >= _NEAR and not word.tags & _BETWEEN:
            return None
    return None


def _as_what(sentence: Sentence, at: int) -> str:
    """Say what a number counts: what was used, or is left; not what is missing."""
    row = next((r for r in clauses(sentence) if r[0] <= at < r[1]), (0, 0))
    words = sentence.words[slice(*row)]
    if any(word.low in LEFT for word in words):
        return LEFT_OVER
    if any("count_left" in word.tags and word.low not in LEFT for word in words):
        return ""
    return USED


def _left_besides(sentence: Sentence, numbers: list[int]) -> dict[str, Any]:
    """Give how many are left besides those used: used 3 M4x20, one left."""
    for at in numbers:
        if _as_what(sentence, at) == LEFT_OVER:
            behind = [word for word in sentence.words[at:] if word.low in LEFT]
            sentence.note("left", sentence.words[at], *behind[:1])
            return {"left": sentence.words[at].whole}
    return {}


def _by_thread(sentence: Sentence) -> dict[str, Any]:
    """Give the part counted by its thread only: 3 of the M4x16, that of one screw.

    Where none is called so, the thread with its length is the name of one that is new.
    """
    for at in sentence.sorts(Sort.THREAD):
        word = sentence.words[at]
        having = sentence.vocabulary.containing((word.low,))
        if word.name is not None and word.name.role == "part":
            having = (word.name.thing,)
        if having:
            sentence.note("counted", word)
            return {"counted": having[0] if len(having) == 1 else word.text}
        if word.name is None and _WITH_LENGTH.search(word.low):
            sentence.note("counted", word)
            return {"counted": word.text}
    return {}


_WITH_LENGTH = re.compile(r"\dx\d")


def remaining_of(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give what is left of a length or a weight: 2 m of cable left."""
    besides = left_besides(sentence)
    left = amount_of(sentence) if besides is None else besides
    if left is None or choice.at < 0 or sentence.words[choice.at].low not in LEFT:
        return {}
    word = sentence.words[left]
    sentence.note("remaining", word, sentence.words[choice.at])
    facts = {"remaining": word.quantities(sentence.vocabulary.unit)[0], "readings": ()}
    return facts if besides is None else {**facts, **_of_which(sentence, besides)}


def _of_which(sentence: Sentence, at: int) -> dict[str, Any]:
    """Give the part of which something is left beside what another takes."""
    named = what_is_left(sentence, at)
    if named is None:
        return {}
    sentence.spans.pop("part", None)
    sentence.note("part", sentence.words[named])
    return {"part": part_named(sentence.words[named]), "others": ()}


def _counted_part(sentence: Sentence, noun: Word) -> str:
    """Name the part that was counted: the one here that it can be, else as typed."""
    if noun.name is not None:
        return noun.name.thing if noun.name.role == "part" else noun.text
    longer = sentence.vocabulary.containing(singular([*spoken(noun.low)]))
    if len(longer) == 1:
        return longer[0]
    first = last = sentence.words.index(noun)
    while sentence.tags(first - 1) & {"adjective", "material"}:
        first -= 1  # The small springs: there may be others.
    return sentence.between(first, last)


def _listed_at(sentence: Sentence, numbers: list[int]) -> int | None:
    for at in numbers:
        before = sentence.word(at - 1) if at else None
        if before is not None and (before.low == "of" or "list_says" in before.tags):
            return at
        for ahead in (1, 2):
            after = sentence.word(at + ahead)
            if after is not None and after.low in ("listed", "expected"):
                return at
    return None
