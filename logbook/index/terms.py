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
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from logbook.errors import BadInput, NeedsAnswer
from logbook.index.rounded import HUNDREDTHS, READ_TO, digits, shown_in
from logbook.quantity import Quantity, parse_decimal, parse_quantity
from logbook.records.kinds.ids import ID_LENGTH, SHORTEST_PREFIX, is_id, spoken
from logbook.units import find_unit

LONGEST_WORD = 64
"""Words are compared by their first so many characters."""

SHORT = 48
"""Texts up to so many characters are remembered with their terms."""

LONGEST_NUMBER = 24
"""A longer run of digits is no measured number."""

MARK = "№"
"""Begins the terms that are no words; folding never leaves it in a word."""

_VULGAR = re.compile("[¼-¾⅐-⅞]")
_QUOTES = re.compile("['’‘‛ʼ`´]")
_SIZES = re.compile(r"(?<![\w.,/])\d[\d.,/]*(?:\s?[x×]\s?\d[\d.,/]*)+(?!\w*[^\W\d_])")
_WORD = re.compile(r"[^\W_]+")
_DIGIT = re.compile(r"\d")
_INNER = re.compile(r"(?<=\d)(?=\D)")
_CROSS = re.compile(r"(?<=\w)×(?=\w)")
_NUMBER = re.compile(
    r"(?<![^\W_])(?:(?P<sign>(?<![\w)])[-−+])\s?)?"
    r"(?:(?:(?P<whole>\d+)[ -])?(?P<num>\d+)\s?[/⁄]\s?(?P<den>\d+)(?![\d.,]*\d)"
    r"|(?P<decimal>\d+(?:[.,]\d+)*|(?<![\w.,])[.,]\d+))"
)
_SIGNS = r"[^\s\d,;:!?()\[\]{}|“]"
_TWO_WORDS = re.compile(rf"\s?((?>{_SIGNS}{{1,6}} {_SIGNS}{{1,8}}))(?!\w)")
_ONE_WORD = re.compile(rf"\s?((?>{_SIGNS}{{1,12}}2?))(?!\w)")


@dataclass(frozen=True, slots=True)
class Number:
    """A number as it stands in a text, sign included.

    `base` is its value in the base unit of its dimension; `minus` tells that a
    minus stood before it; `places` counts the digits behind its mark, where it has one.
    """

    value: Fraction
    dimension: str = ""
    base: Fraction = Fraction(0)
    minus: bool = False
    unit: str = ""
    places: int = 0

    @property
    def size(self) -> Fraction:
        """Give what is compared when no sign is asked for; a temperature has one."""
        return self.base if self.dimension == "temperature" else abs(self.base)


@dataclass(frozen=True, slots=True)
class Text:
    """A text taken apart into folded words and numbers."""

    words: tuple[str, ...]
    numbers: tuple[Number, ...]


@dataclass(frozen=True, slots=True)
class _Span:
    """Where a number stands in a text, its unit excluded and included."""

    start: int
    end: int
    unit_end: int
    meanings: tuple[Number, ...]


def read(text: str) -> Text:
    """Take a text apart; a unit counts as a word too, `in` often is one."""
    plain = _prepared(text)
    numbers: list[Number] = []
    rest, at = [], 0
    for span in _spans(plain):
        numbers += span.meanings
        rest.append(plain[at : span.start])
        at = span.end
    rest.append(plain[at:])
    return Text(tuple(_words(" ".join(rest))), tuple(numbers))


def _prepared(text: str) -> str:
    if not text.isascii():
        text = _VULGAR.sub(lambda m: " " + unicodedata.normalize("NFKD", m[0]), text)
        text = text.replace("″", '"').replace("⁄", "/")
        text = unicodedata.normalize("NFKD", text)
    if _DIGIT.search(text):
        text = _SIZES.sub(lambda m: re.sub("[x×]", " × ", m[0]), text)
    return _CROSS.sub("x", text)


def _words(text: str) -> list[str]:
    text = _QUOTES.sub("", text).casefold()
    if not text.isascii():
        text = unicodedata.normalize("NFKD", text)
        text = "".join(sign for sign in text if not unicodedata.combining(sign))
    words = _WORD.findall(text)
    if len(text) > LONGEST_WORD:
        words = [word[:LONGEST_WORD] for word in words]
    return words


def _spans(text: str) -> Iterator[_Span]:
    if not _DIGIT.search(text):
        return
    for match in _NUMBER.finditer(text):
        unit, end = _unit_after(text, match.end())
        glued = text[match.end() : match.end() + 1]
        if not unit and (glued.isalnum() or glued in {"/", "_"}):
            continue
        minus = match["sign"] in {"-", "−"}
        places = len(re.split("[.,]", match["decimal"] or "")[-1])
        whole = not match["decimal"] or match["decimal"].isdigit()
        meanings = tuple(
            _number(v, unit, minus=minus, places=0 if whole else places)
            for v in _values(match)
        )
        if meanings:
            yield _Span(match.start(), match.end(), end, meanings)


def _number(value: Fraction, unit: str, *, minus: bool, places: int) -> Number:
    signed = -value if minus else value
    if not unit:
        return Number(signed, minus=minus, places=places)
    known = find_unit(unit)
    base = signed * known.factor + known.offset
    return Number(signed, known.dimension, base, minus, known.symbol, places)


def _values(match: re.Match[str]) -> tuple[Fraction, ...]:
    digits = match[0].lstrip("-−+ ")
    if len(digits) > LONGEST_NUMBER or not digits.isascii():
        return ()
    if match["den"]:
        if not int(match["den"]):
            return ()
        part = Fraction(int(match["num"]), int(match["den"]))
        return (int(match["whole"] or 0) + part,)
    try:
        return (parse_decimal(match["decimal"])[0],)
    except NeedsAnswer as question:
        return tuple(Fraction(choice) for choice in question.choices)
    except BadInput:
        return ()


def _unit_after(text: str, at: int) -> tuple[str, int]:
    """Give the unit that stands at a place and where it ends, or nothing."""
    for pattern, group in ((_TWO_WORDS, 1), (_ONE_WORD, 1)):
        match = pattern.match(text, at)
        if match and (found := _unit(match[group])):
            return found, match.end()
    return "", at


@lru_cache(maxsize=4096)
def _unit(words: str) -> str:
    for word in (words, words.rstrip(".…"), words.split("-", 1)[0]):
        try:
            return find_unit(word).symbol
        except BadInput:
            continue
    return ""


def of_quantity(held: Quantity) -> Number:
    """Give the number a quantity field holds; a gauge is a number of its metal."""
    if held.metal:
        return Number(held.value, f"gauge {held.metal}", held.value)
    unit = find_unit(held.unit)
    base = held.value * unit.factor + unit.offset
    return Number(held.value, unit.dimension, base, held.value < 0, unit.symbol)


# -- terms as they stand in the index --------------------------------------------


def terms_of(text: str) -> tuple[str, ...]:
    """Give the terms of a text; short ones are remembered, names come again."""
    return _short_terms(text) if len(text) <= SHORT else _terms(text)


def _terms(text: str) -> tuple[str, ...]:
    parts = read(text)
    found = list(word_terms(dict.fromkeys(parts.words)))
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


def number_terms(number: Number) -> Iterator[str]:
    """Give the terms a number is found by."""
    for tag in ("n",) if number.dimension else ("n", "u"):
        yield _exact(tag, abs(number.value))
        if number.minus:
            yield _exact(tag + "s", number.value)
    if number.dimension:
        yield _exact(_tag(number.dimension), number.size)
        yield _exact(_tag(number.dimension) + "s", number.base)
    if number.unit or not number.dimension:
        yield from _shown_terms(number)


def _shown_terms(number: Number) -> Iterator[str]:
    """Give the terms of what a caliper shows of a number, where that is not all."""
    signed = number.dimension == "temperature"
    for unit, read_there in shown_in(number.value, number.unit):
        bare, tag = _shown_tags(unit)
        for last in read_there:
            if unit == number.unit:
                yield f"{bare}{abs(last)}"
                if number.minus:
                    yield f"{bare}s{_signed(last)}"
            yield f"{tag}{_signed(last) if signed else abs(last)}"
            if number.minus:
                yield f"{tag}s{_signed(last)}"


def _signed(last: int) -> str:
    return f"m{-last}" if last < 0 else str(last)


@lru_cache(maxsize=256)
def _shown_tags(unit: str) -> tuple[str, str]:
    """Give the tags of what is shown in a unit, asked for without it and with it."""
    places = digits(unit)
    return _shown("", places), _shown(unit or "u", places)


def _shown(unit: str, places: int) -> str:
    return f"{MARK}r{places}{re.sub('[^0-9a-z]', 'x', unit.lower())}q"


def _exact(tag: str, value: Fraction) -> str:
    minus = "m" if value < 0 else ""
    return f"{MARK}{tag}{minus}{abs(value.numerator)}d{value.denominator}"


def _tag(dimension: str) -> str:
    return "q" + dimension.lower().replace(" ", "") + "q"


def place_term(tag: str, word: str) -> str:
    """Give the term of a filter: k for a kind, p for a part, b for a build."""
    return MARK + tag + re.sub("[^0-9a-z]", "x", word)


def id_term(identity: str) -> str:
    """Give the term a record is found by when its id is typed."""
    return f"{MARK}i{identity}"


# -- what is asked for -----------------------------------------------------------


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
    plain = _prepared(text)
    rows, rest, at = [], [], 0
    for span in _spans(plain):
        rows.append(span.meanings + tuple(_in_unit(span.meanings, unit)))
        rest.append(plain[at : span.start])
        at = span.unit_end
    rest.append(plain[at:])
    words = tuple(_words(" ".join(rest)))
    try:
        whole = of_quantity(parse_quantity(text))
    except BadInput:
        whole = None
    return Asked(words, tuple(rows), whole)


def _in_unit(meanings: Iterable[Number], unit: str) -> Iterator[Number]:
    for bare in meanings:
        if unit and not bare.dimension:
            size, places = abs(bare.value), bare.places
            yield _number(size, unit, minus=bare.minus, places=places)


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
    last = _signed(int(value * 10**places))
    for unit in (number.unit, "u") if number.unit else ("",):
        yield f"{_shown(unit, places)}{sign}{last}"


def _exact_terms(number: Number) -> Iterator[str]:
    """Give the terms of its exact value."""
    if number.minus:
        if not number.dimension:
            yield _exact("ns", number.value)
            return
        yield _exact(_tag(number.dimension) + "s", number.base)
        yield _exact("us", number.value)
        return
    if not number.dimension:
        yield _exact("n", abs(number.value))
        return
    yield _exact(_tag(number.dimension), number.size)
    yield _exact("u", abs(number.value))
