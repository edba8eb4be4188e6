"""A word of a fastener that names a part, because it was machined: bored the pin."""

from __future__ import annotations

from logbook.plain.named.names import after_leads
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence

TURNED_OF_BAR = ("pin", "pins", "spacer", "spacers", "standoff", "standoffs")
"""Fastener words of what is turned in the shop; alone, only one machined is a part."""


def machined_part(sentence: Sentence, first: int) -> list[int]:
    """See the pin of “faced and bored the pin”: a fastener word machined is a part.

    Only what nobody tightens is turned: “turned the nut” moves it.
    """
    verb = sentence.word(first)
    if verb is None:
        return []
    cut = verb.low in ("faced", "bored", "reamed", "knurled")
    at = after_leads(sentence, first + 1)
    word, behind = sentence.word(at), sentence.word(at + 1)
    if word is None or at == first + 1 or "fastener" not in word.tags:
        return []
    turned = verb.low == "turned" and word.low in TURNED_OF_BAR
    if not (cut or turned) or (behind is not None and _goes_on(behind)):
        return []
    return [at]


def _goes_on(word: Word) -> bool:
    """Tell the holes of “bored the pin holes”, which are of no pin."""
    return word.sort is Sort.WORD and not word.tags & {"preposition", "joiner"}
