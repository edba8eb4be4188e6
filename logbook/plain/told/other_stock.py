"""Stock of another thickness, taken because the right one was not to be had.

“Used 1/4 in plate for the collar, the shop had no 6 mm”: a size that is not as drawn,
with its reason, and no choice of the design.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.told.part import part_of
from logbook.plain.understanding import Cause, Kind, Reading
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence

_STOCK = frozenset({"plate", "sheet", "board", "ply", "plywood", "card", "stock"})
_THICK = frozenset({"thickness", "thick"})
_LACKED = ("had no", "have no", "has no", "had not", "didn't have", "did not have",
           "were out of", "was out of", "ran out of", "sold out",
           "no other", "nothing else", "all they had", "all i had")  # fmt: skip
_NO_OTHER = ("no other", "nothing else", "all they had", "all i had")
"""What was not to be had was the drawn one, whatever it is."""
_LENGTH = ("", "length")


def other_stock(
    sentence: Sentence,
) -> tuple[Sentence, Choice, dict[str, Any]] | None:
    """Read what was taken, what it should have been, and why it was not."""
    why = _lacking(sentence)
    taken = _thickness(sentence)
    if not why or taken is None:
        return None
    wanted = _wanted(sentence, taken)
    facts = part_of(sentence)
    said = " ".join(one.low for one in why)
    drawn_only = any(one in said for one in _NO_OTHER)
    if not facts.get("part") or (wanted is None and not drawn_only):
        return None
    unit = sentence.vocabulary.unit
    word = sentence.words[taken]
    [value] = word.quantities(unit)
    [drawn] = (None,) if wanted is None else sentence.words[wanted].quantities(unit)
    if value.metal:
        return None
    facts["what"] = "thickness"
    facts["readings"] = (Reading(value, "thickness"),)
    if wanted is not None and drawn is not None:
        if drawn.metal or value.dimension != drawn.dimension:
            return None
        facts["wanted"] = (drawn,)
        sentence.note("wanted", sentence.words[wanted])
    facts["cause"] = Cause(sentence.text[why[0].start : why[-1].end])
    sentence.note("readings", word)
    sentence.note("what", *_of_the_stock(sentence, taken))
    sentence.note("cause", *why)
    first = max(taken + 1, sentence.words.index(why[0]))
    told = replace(sentence, words=sentence.words[:first])
    return told, Choice(Kind.READING, 0.9, _stock_word(sentence, taken)), facts


def _lacking(sentence: Sentence) -> list[Word]:
    """Give the words that say what was not to be had, behind a because or a comma."""
    for start, end in clauses(sentence):
        because = [
            at for at in sentence.tagged("because") if start <= at < end - 1
        ]  # fmt: skip
        first = because[0] + 1 if because else start
        row = sentence.words[first:end]
        said = " ".join(word.low for word in row)
        if (first > 0) and any(one in said for one in _LACKED):
            return row
    return []


def _thickness(sentence: Sentence) -> int | None:
    """Give where the size of plate or sheet stands: 1/4 in plate, plate 8 mm.

    Or the one in a clause of its own behind “a thicker plate”.
    """
    for at in sentence.sorts(*FIGURES):
        word = sentence.words[at]
        beside = [sentence.word(at + 1), sentence.word(at - 1) if at else None]
        stock = [one for one in beside if one is not None and _is_stock(one)]
        plain = len(word.amounts) == 1 and word.dimension in _LENGTH
        told = stock or _thicker(sentence, at)
        if told and plain and word.sort is Sort.NUMBER:
            return at
    return None


def _thicker(sentence: Sentence, at: int) -> bool:
    alone = (at, at + 1) in clauses(sentence)
    lows = [word.low for word in sentence.words[:at]]
    return alone and any(low in ("thicker", "thinner") for low in lows)


def _stock_word(sentence: Sentence, taken: int) -> int:
    """Give where the word stands that tells of stock, -1 where it is far off."""
    beside = (taken + 1, taken - 1)
    words = [(at, sentence.word(at)) for at in beside if at >= 0]
    return next((at for at, word in words if word and _is_stock(word)), -1)


def _is_stock(word: Word) -> bool:
    return word.low in _STOCK | _THICK or (
        word.name is None and "material" in word.tags
    )


def _wanted(sentence: Sentence, taken: int) -> int | None:
    """Give where the size stands that was not to be had, or that it is instead of."""
    for at in sentence.sorts(*FIGURES):
        before = sentence.words[at - 1] if at else None
        word = sentence.words[at]
        if before is None or at == taken or len(word.amounts) != 1:
            continue
        lacked = before.low.split(" ")[-1] in ("no", "of", "have")
        if ("instead" in before.tags or lacked) and word.dimension in _LENGTH:
            return at
    return None


def _of_the_stock(sentence: Sentence, taken: int) -> list[Word]:
    """Give the words that only say that it was taken: used …, cut from … plate."""
    last = taken + 2
    return [
        word
        for word in sentence.words[:last]
        if word.name is None
        and word.sort is Sort.WORD
        and (_is_stock(word) or word.tags & {"use:past", "make:past", "use:base"})
    ]
