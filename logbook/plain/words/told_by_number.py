"""What a number or a letter behind a word only tells apart: pins 2 and 3, rev B."""

from __future__ import annotations

import re

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.lexicon import lexicon


def numbers_two(words: list[Word], at: int) -> bool:
    """See the pins 2 and 3 that were swapped."""
    row = words[at + 1 : at + 4]
    several = words[at].low.split(" ")[-1] in lexicon().clauses["numbered_pairs"]
    if not several or len(row) < 3 or row[1].low not in ("and", "&"):
        return False
    behind = words[at + 4].low if at + 4 < len(words) else ""
    numbers = (row[0], row[2])
    whole = all(one.whole is not None and not one.unit for one in numbers)
    return whole and behind not in ("long", "wide", "thick", "deep", "high")


def numbers_a_size(words: list[Word], at: int) -> bool:
    """See the 1 of “diagonal 1 302.1”, which tells it from diagonal 2."""
    word, number = words[at], words[at + 1]
    figure = words[at + 2] if at + 2 < len(words) else None
    small = number.sort is Sort.NUMBER and not number.unit and number.whole is not None
    if "measures" not in word.tags or not small or not 0 < (number.whole or 0) < 10:
        return False
    return figure is not None and figure.sort is Sort.NUMBER and figure.has_decimals


def is_revision_label(word: Word) -> bool:
    """Tell whether a word may be what a revision is called: B, 2, v3, 1.1."""
    letters = word.text.isalpha() and word.text.isupper() and len(word.text) < 3
    one = len(word.text) == 1 and word.text.isalnum()
    plain = one and not word.tags & {"is", "article"}
    return letters or plain or bool(re.fullmatch(r"[\d.]+|v\d+", word.low))
