"""What a search asks for, as the full text is asked for it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.index.apart import Number, number, of_quantity, prepared, spans, words_of
from logbook.index.rounded import HUNDREDTHS, READ_TO, digits
from logbook.index.terms import exact, id_term, shown, signed, tag_of
from logbook.quantity import parse_quantity
from logbook.records.kinds.ids import ID_LENGTH, SHORTEST_PREFIX, is_id, spoken


@dataclass(frozen=True, slots=True)
class Asked:
    """What a search asks for: all of the words and one of each row of numbers.

    `whole` is the search read as one quantity (`5' 3"`), where it is one.
    """

    words: tuple[str, ...]
    numbers: tuple[tuple[Number, ...], ...]
    whole: Number | None = None


def read_search(text: str, unit: str = "") -> Asked:
    """Read what the user typed into search; nothing in it is refused.

    `unit` is the project's, which a number without one may also mean.
    """
    plain = prepared(text)
    rows, rest, at = [], [], 0
    for span in spans(plain):
        rows.append(span.meanings + tuple(_in_unit(span.meanings, unit)))
        rest.append(plain[at : span.start])
        at = span.unit_end
    rest.append(plain[at:])
    words = tuple(words_of(" ".join(rest)))
    try:
        whole = of_quantity(parse_quantity(text))
    except BadInput:
        whole = None
    return Asked(words, tuple(rows), whole)


def _in_unit(meanings: Iterable[Number], unit: str) -> Iterator[Number]:
    for bare in meanings:
        if unit and not bare.dimension:
            size, places = abs(bare.value), bare.places
            yield number(size, unit, minus=bare.minus, places=places)


def match_of(asked: Asked) -> str:
    """Give the full-text expression of a search; empty if it asks for nothing."""
    items = [_word_match(word) for word in asked.words]
    items += [" OR ".join(map(_number_match, row)) for row in asked.numbers]
    expression = " AND ".join(f"({item})" for item in items)
    if asked.whole is not None:
        whole = _number_match(asked.whole)
        expression = f"({expression}) OR ({whole})" if expression else whole
    return expression


def _word_match(word: str) -> str:
    found = f'"{word}"' if word[-1].isdigit() else f'"{word}" *'
    key = id_prefix(word)
    return f'{found} OR "{id_term(key)}" *' if key else found


def id_prefix(word: str) -> str:
    """Give the beginning of an id that a word can be, else nothing.

    A word without a digit is one only in full length: many words of four
    letters would begin some id.
    """
    key = spoken(word)
    whole = len(key) == ID_LENGTH
    fits = whole or (len(key) >= SHORTEST_PREFIX and any(s.isdigit() for s in word))
    return key if fits and is_id(key.ljust(ID_LENGTH, "0")) else ""


def _number_match(number: Number) -> str:
    return " OR ".join(f'"{term}"' for term in asked_terms(number))


def asked_terms(number: Number) -> Iterator[str]:
    """Give the terms any of which answers a number asked for."""
    yield from _exact_terms(number)
    places = number.places
    read_to = digits(number.unit) if number.unit else places
    if places != read_to or places not in {HUNDREDTHS, *READ_TO.values()}:
        return
    sign = "s" if number.minus else ""
    value = number.value if number.minus else abs(number.value)
    last = signed(int(value * 10**places))
    for unit in (number.unit, "u") if number.unit else ("",):
        yield f"{shown(unit, places)}{sign}{last}"


def _exact_terms(number: Number) -> Iterator[str]:
    """Give the terms of its exact value."""
    if number.minus:
        if not number.dimension:
            yield exact("ns", number.value)
            return
        yield exact(tag_of(number.dimension) + "s", number.base)
        yield exact("us", number.value)
        return
    if not number.dimension:
        yield exact("n", abs(number.value))
        return
    yield exact(tag_of(number.dimension), number.size)
    yield exact("u", abs(number.value))
