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
