"""Amounts of money in a line: what an order or a price tells."""

from __future__ import annotations

from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence


def priced(sentence: Sentence) -> bool:
    """Tell whether an amount of money with its currency stands in the line."""
    return any(word.dimension.startswith("money") for word in sentence.words)


def money(sentence: Sentence) -> bool:
    """Tell whether an amount of money stands in the line, currency typed or not."""
    return priced(sentence) or any(
        len(word.amounts[0].replace(",", ".").partition(".")[2]) == 2 and not word.unit
        for word in sentence.words
        if word.sort is Sort.NUMBER
    )


def counted_goods(sentence: Sentence, at: int) -> bool:
    """See “ordered 6 spikes, 28.80”, “10 sockets on order”: so many, at a price."""
    if not (money(sentence) or sentence.has("due")):
        return False
    for first in (at + 1, 0):
        number, goods = sentence.word(first), sentence.word(first + 1)
        many = number is not None and number.whole is not None and not number.unit
        if many and goods is not None and goods.sort is Sort.WORD:
            return True
    return False
