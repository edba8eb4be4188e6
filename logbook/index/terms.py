"""What search understands by a word and by a number.

A word is folded: case, accents and quotes are forgiven, and it is found by its
beginning; where the beginning typed ends in a digit, no further digit may
follow, so that M3 finds M3x8 and not M30. A number is found by its exact value:
`86.42` finds `86.420` and `86,42`; with a unit, by the value in the base unit,
so that `3/16 in` finds `4.7625 mm`. A number typed with a unit also finds the
same number written without one; a number typed without one also means the
unit of the project. The sign counts only where it is asked for. What a caliper
shows of a number, `rounded` tells, finds it too: `4.76` finds `4.7625 mm`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cache, lru_cache

from logbook.index.apart import Number, read
from logbook.index.rounded import digits, shown_in

SHORT = 48
"""Texts up to so many characters are remembered with their terms."""

MARK = "№"
"""Begins the terms that are no words; folding never leaves it in a word."""

_INNER = re.compile(r"(?<=\d)(?=\D)")


def terms_of(text: str) -> tuple[str, ...]:
    """Give the terms of a text; short ones are remembered, names come again."""
    return _short_terms(text) if len(text) <= SHORT else _terms(text)


def _terms(text: str) -> tuple[str, ...]:
    parts = read(text)
    words = dict.fromkeys(parts.words)
    if not parts.digits:
        return tuple(words)
    found = list(word_terms(words))
    for number in parts.numbers:
        found += number_terms(number)
    return tuple(found)


_short_terms = lru_cache(maxsize=8192)(_terms)


def word_terms(words: Iterable[str]) -> Iterator[str]:
    """Give the terms of words: each word, and each beginning that ends a number."""
    for word in words:
        yield word
        if not word.isalpha():
            for inner in _INNER.finditer(word):
                yield word[: inner.start()]


def number_terms(number: Number) -> list[str]:
    """Give the terms a number is found by."""
    found = []
    for tag in "n" if number.dimension else "nu":
        found.append(unsigned(tag, number.value))
        if number.minus:
            found.append(exact(tag + "s", number.value))
    if number.dimension:
        tag, base = tag_of(number.dimension), number.base
        signless = number.dimension != "temperature"
        found.append(unsigned(tag, base) if signless else exact(tag, base))
        found.append(exact(tag + "s", base))
    if number.unit or not number.dimension:
        found += _shown_terms(number)
    return found


def _shown_terms(number: Number) -> Iterator[str]:
    """Give the terms of what a caliper shows of a number, where that is not all."""
    has_sign = number.dimension == "temperature"
    for unit, read_there in shown_in(number.value, number.unit):
        bare, tag = _shown_tags(unit)
        for last in read_there:
            if unit == number.unit:
                yield f"{bare}{abs(last)}"
                if number.minus:
                    yield f"{bare}s{signed(last)}"
            yield f"{tag}{signed(last) if has_sign else abs(last)}"
            if number.minus:
                yield f"{tag}s{signed(last)}"


def signed(last: int) -> str:
    """Write a whole number as it stands in a term, with its sign."""
    return f"m{-last}" if last < 0 else str(last)


@lru_cache(maxsize=256)
def _shown_tags(unit: str) -> tuple[str, str]:
    """Give the tags of what is shown in a unit, asked for without it and with it."""
    places = digits(unit)
    return shown("", places), shown(unit or "u", places)


def shown(unit: str, places: int) -> str:
    """Give the tag of what is shown of a number in a unit, to so many places."""
    return f"{MARK}r{places}{re.sub('[^0-9a-z]', 'x', unit.lower())}q"


def exact(tag: str, value: Fraction) -> str:
    """Give the term of an exact value, with its sign."""
    return f"{MARK}{tag}{signed(value.numerator)}d{value.denominator}"


def unsigned(tag: str, value: Fraction) -> str:
    """Give the term of an exact value, whatever its sign."""
    return f"{MARK}{tag}{abs(value.numerator)}d{value.denominator}"


@cache
def tag_of(dimension: str) -> str:
    """Give the tag of values of a dimension."""
    return "q" + dimension.lower().replace(" ", "") + "q"


def place_term(tag: str, word: str) -> str:
    """Give the term of a filter: k for a kind, p for a part, b for a build."""
    return MARK + tag + re.sub("[^0-9a-z]", "x", word)


def id_term(identity: str) -> str:
    """Give the term a record is found by when its id is typed."""
    return f"{MARK}i{identity}"
