"""Words of stock that name a part: the board whose length is told, the plate made.

A board may be what is bought or a part so called. It is a part where its own length or
width is told first, or where it was made; a thickness is as likely of the stock.
"""

from __future__ import annotations

from logbook.plain.named.name_places import after_when
from logbook.plain.named.names import after_leads
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence

_AS_SOLD = frozenset({"sold", "as sold", "bought", "delivered", "thick", "thickness"})
_MADE = frozenset({"made", "built"})
_GOES_ON = frozenset({"from", "out of", "to", "in", "for", "and", "at"})


def stock_told_of(sentence: Sentence) -> list[int]:
    """Give where a word of stock stands that can only name a part, none elsewhere."""
    if any(word.low in _AS_SOLD for word in sentence.words):
        return []
    first = after_when(sentence)
    made = sentence.word(first)
    done = made is not None and made.low in _MADE
    start = first + 1 if done else first
    at = after_leads(sentence, start)
    word = sentence.word(at)
    if word is None or not _may_be_stock(sentence, word):
        return []
    if done:
        return [at] if at > start and _ends_at(sentence, at + 1) else []
    return [at] if _of_its_size(sentence, at + 1) else []


def _may_be_stock(sentence: Sentence, word: Word) -> bool:
    plain = word.sort is Sort.WORD and word.name is None
    return plain and word.low in sentence.lexicon.names["of_stock"]


def _ends_at(sentence: Sentence, at: int) -> bool:
    word = sentence.word(at)
    return word is None or word.sort is not Sort.WORD or word.low in _GOES_ON


def _of_its_size(sentence: Sentence, at: int) -> bool:
    """See a measure with its figure behind the name: length 600.4, width drawn 100."""
    colon = sentence.word(at)
    at += 1 if colon is not None and colon.low == ":" else 0
    measure = sentence.word(at)
    if measure is None:
        return False
    known = measure.name is not None and measure.name.role == "characteristic"
    if not known and "measures" not in measure.tags:
        return False
    return any(
        word.sort in (Sort.NUMBER, Sort.SIZE) for word in sentence.words[at + 1 :]
    )
